namespace PupilBridge.Exchange.Research;

/// <summary>
/// Ages in bands of ten years; all over 89 are one band, as 45 CFR 164.514(b)(2)(i)(C) has it (from memory: "all ages over 89 … may be
/// aggregated into a single category of age 90 or older").
/// </summary>
public static class AgeBands
{
    /// <summary>The band of those over 89.</summary>
    public const string Oldest = "90+";

    /// <summary>All bands, the youngest first.</summary>
    public const string All = "0-9, 10-19, … 80-89, 90+";

    /// <summary>The band of an age.</summary>
    /// <param name="years">Completed years; null if it is not known.</param>
    /// <returns>Null if it is not known.</returns>
    public static string? Of(int? years) =>
        years switch
        {
            null => null,
            > 89 => Oldest,
            { } known => $"{known / 10 * 10}-{(known / 10 * 10) + 9}",
        };
}
