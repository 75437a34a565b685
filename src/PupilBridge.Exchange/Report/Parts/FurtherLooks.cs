namespace PupilBridge.Exchange.Report.Parts;

/// <summary>Says each further look, and what to ask with it, once; the next finding with the same one points to the first.</summary>
/// <remarks>For one report.</remarks>
internal sealed class FurtherLooks
{
    // How criteria put the two together; a record in which they stand otherwise is one look without questions.
    private const string Between = " To ask: ";

    private readonly Dictionary<string, string> said = new(StringComparer.Ordinal);

    /// <summary>What to say of a further look.</summary>
    /// <param name="criterion">The criterion that it belongs to.</param>
    /// <param name="look">The look, as the record has it.</param>
    public string Of(string criterion, string look)
    {
        var parts = look.Split(Between, 2);
        var first = Once(criterion, parts[0]);
        return parts.Length == 1 ? first : $"{first}{Between}{Once(criterion, parts[1])}";
    }

    private string Once(string criterion, string words) =>
        said.TryAdd(words, criterion) ? words : ReportWords.Text.Get("Finding.AsFor", said[words]);
}
