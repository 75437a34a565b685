using System.Globalization;
using System.Text;

namespace PupilBridge.Journal;

/// <summary>
/// The journal's own remark on something that happened to it, kept as a record of class <see cref="RecordClass.Notice"/>:
/// UTF-8 text, one <c>name=value</c> a line, each ended by LF. Unknown names are passed over.
/// </summary>
/// <param name="Kind">What was found or done.</param>
/// <param name="File">The file concerned, by name.</param>
/// <param name="Offset">Where in it, in bytes.</param>
/// <param name="Bytes">How many bytes are concerned.</param>
/// <param name="FirstSequence">The first sequence concerned, 0 when none is.</param>
/// <param name="LastSequence">The last sequence concerned.</param>
/// <param name="Text">For a person: what happened.</param>
public sealed record JournalNotice(
    ProblemKind Kind,
    string File,
    long Offset,
    long Bytes,
    long FirstSequence,
    long LastSequence,
    string Text
)
{
    /// <summary>The bytes of the notice, as they are stored.</summary>
    public byte[] Encode() =>
        Encoding.UTF8.GetBytes(
            string.Create(
                CultureInfo.InvariantCulture,
                $"kind={Kind}\nfile={File}\noffset={Offset}\nbytes={Bytes}\nfirst={FirstSequence}\nlast={LastSequence}\ntext={Text.ReplaceLineEndings(" ")}\n"
            )
        );

    /// <summary>
    /// What is written under the key as the last record before segments in the clear. Only who has the key can write it: it is what tells a
    /// clinic that switched encryption off from somebody who puts segments of their own in place of encrypted ones.
    /// </summary>
    internal static JournalNotice ClearFollows { get; } =
        new(
            ProblemKind.GoesOnInTheClear,
            "",
            0,
            0,
            0,
            0,
            "Encryption is switched off: the segments from here on stand in the clear."
        );

    /// <summary>Reads a notice back; null when the bytes are none.</summary>
    public static JournalNotice? TryDecode(ReadOnlySpan<byte> payload)
    {
        Dictionary<string, string> values = new(StringComparer.Ordinal);
        foreach (string line in Encoding.UTF8.GetString(payload).Split('\n', StringSplitOptions.RemoveEmptyEntries))
        {
            int equals = line.IndexOf('=', StringComparison.Ordinal);
            if (equals > 0)
                values[line[..equals]] = line[(equals + 1)..];
        }
        return values.ContainsKey("kind")
            ? new JournalNotice(
                Enum.TryParse(values["kind"], out ProblemKind kind) ? kind : ProblemKind.None,
                values.GetValueOrDefault("file", ""),
                Number(values, "offset"),
                Number(values, "bytes"),
                Number(values, "first"),
                Number(values, "last"),
                values.GetValueOrDefault("text", "")
            )
            : null;
    }

    internal static JournalNotice From(JournalProblem problem, long bytes) =>
        new(
            problem.Kind,
            problem.File,
            problem.Offset,
            bytes,
            problem.FirstSequence,
            problem.LastSequence,
            problem.Meaning
        );

    private static long Number(Dictionary<string, string> values, string name) =>
        long.TryParse(
            values.GetValueOrDefault(name, "0"),
            NumberStyles.AllowLeadingSign,
            CultureInfo.InvariantCulture,
            out long value
        )
            ? value
            : 0;
}
