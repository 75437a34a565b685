namespace PupilBridge.Clinic.Audit;

/// <summary>
/// A patient's number in the path of a page or route. It is taken out before the path is noted, so that the number can be sealed apart
/// from it and goes with an erasure.
/// </summary>
public static class PatientInPath
{
    /// <summary>What stands in the path in the number's place.</summary>
    public const string StandIn = "{patient}";

    private const string Before = "/patients/";

    /// <summary>Takes the number out.</summary>
    /// <param name="path">The path as it was asked for, unescaped but for slashes.</param>
    /// <returns>The path without the number, and the number; null where it holds none.</returns>
    public static (string? Path, string? Number) TakeOut(string? path)
    {
        var at = path?.IndexOf(Before, StringComparison.OrdinalIgnoreCase) ?? -1;
        if (at < 0)
        {
            return (path, null);
        }

        var from = at + Before.Length;
        var slash = path!.IndexOf('/', from);
        var to = slash < 0 ? path.Length : slash;
        return to == from
            ? (path, null)
            : (
                string.Concat(path.AsSpan(0, from), StandIn, path.AsSpan(to)),
                path[from..to].Replace("%2F", "/", StringComparison.OrdinalIgnoreCase)
            );
    }

    /// <summary>Puts the number, or what stands for it, back.</summary>
    public static string? PutBack(string? path, string? number) =>
        number is null
            ? path
            : path?.Replace(StandIn, number.Replace("/", "%2F", StringComparison.Ordinal), StringComparison.Ordinal);
}
