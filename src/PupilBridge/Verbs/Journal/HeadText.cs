using System.Globalization;
using System.Text.RegularExpressions;
using PupilBridge.CommandLine;
using PupilBridge.Desk;
using PupilBridge.Journal;

namespace PupilBridge.Verbs.Journal;

/// <summary>A head of the journal as people write it down: on reports and certificates, in files, read aloud.</summary>
internal static partial class HeadText
{
    private const int GroupDigits = 4;
    private const int GroupsInALine = 8;

    /// <summary>Reads a head that somebody typed or copied from paper.</summary>
    /// <param name="text">A sequence, a colon and 64 hexadecimal digits; spaces and ends of line among them are passed over.</param>
    /// <exception cref="CommandFailure">It is none.</exception>
    public static JournalPosition Read(string text)
    {
        var parts = text.Split(':', 2);
        return
            parts is [var sequence, var hash]
            && long.TryParse(Compact(sequence), NumberStyles.None, CultureInfo.InvariantCulture, out var number)
            && ChainHash.TryParse(Compact(hash), out var chain)
            ? new JournalPosition(number, chain)
            : throw new CommandFailure(
                ExitCode.Usage,
                $"'{text}' is no head of a journal.",
                "A head is what 'journal head' prints, and reports and certificates: a sequence, a colon and 64 hexadecimal digits."
            );
    }

    /// <summary>Reads the heads that stand in a file, such as <c>journal head --output</c> writes.</summary>
    /// <param name="path">The file; any text in which heads stand.</param>
    /// <exception cref="CommandFailure">There is no such file, or no head in it.</exception>
    public static IReadOnlyList<JournalPosition> InFile(string path)
    {
        if (!File.Exists(path))
        {
            throw new CommandFailure(
                ExitCode.NotFound,
                $"There is no file {path}.",
                "Name the file in which the head was kept."
            );
        }

        JournalPosition[] found = [.. Head().Matches(File.ReadAllText(path)).Select(match => Read(match.Value))];
        return found.Length > 0
            ? found
            : throw new CommandFailure(
                ExitCode.Usage,
                $"No head of a journal stands in {path}.",
                "Name a file that 'journal head --output FILE' wrote."
            );
    }

    /// <summary>A head as the running service tells it.</summary>
    /// <param name="head">Its answer.</param>
    public static JournalPosition Of(HeadOfJournal head) =>
        ChainHash.TryParse(head.Chain, out var chain)
            ? new JournalPosition(head.Sequence, chain)
            : throw new CommandFailure(
                ExitCode.NoService,
                "The running service answered with no head.",
                "Restart the service."
            );

    /// <summary>The chain's value in groups, for reading aloud.</summary>
    /// <param name="chain">The value.</param>
    /// <returns>Lines of eight groups of four digits.</returns>
    public static IEnumerable<string> Grouped(ChainHash chain) =>
        chain
            .ToString()
            .Chunk(GroupDigits)
            .Select(group => new string(group))
            .Chunk(GroupsInALine)
            .Select(line => string.Join(' ', line));

    // What a PDF reader or a chat hands over is full of spaces and marks that nobody sees.
    private static string Compact(string text) =>
        string.Concat(
            text.Where(c => !char.IsWhiteSpace(c) && char.GetUnicodeCategory(c) is not UnicodeCategory.Format)
        );

    [GeneratedRegex(@"(?<!\d)\d{1,18}:[0-9a-fA-F]{64}(?![0-9a-fA-F])", RegexOptions.CultureInvariant)]
    private static partial Regex Head();
}
