using System.CommandLine;

namespace PupilBridge.CommandLine;

/// <summary>Finds the word that was probably meant where one is not understood.</summary>
internal static class NearWords
{
    /// <summary>The most letters that may be wrong, missing or too many.</summary>
    private const int MaxWrong = 2;

    /// <summary>The words of a command that are near to one that was not understood.</summary>
    /// <param name="command">The command at which understanding ended.</param>
    /// <param name="word">The word.</param>
    /// <returns>Names of commands or options, the nearest first; none if nothing is near.</returns>
    public static IReadOnlyList<string> Of(Command command, string word)
    {
        var options = Lineage(command).SelectMany(c => c.Options).Select(o => o.Name);
        return
        [
            .. command
                .Subcommands.Select(sub => sub.Name)
                .Concat(options)
                .Select(name => (Name: name, Wrong: Distance(word, name)))
                .Where(near => near.Wrong <= MaxWrong && near.Wrong < near.Name.TrimStart('-').Length)
                .OrderBy(near => near.Wrong)
                .Select(near => near.Name),
        ];
    }

    private static IEnumerable<Command> Lineage(Command command)
    {
        for (var at = command; at is not null; at = at.Parents.OfType<Command>().FirstOrDefault())
        {
            yield return at;
        }
    }

    /// <summary>How many letters must be changed, added or taken away (Levenshtein's distance).</summary>
    private static int Distance(string from, string to)
    {
        var row = Enumerable.Range(0, to.Length + 1).ToArray();
        for (var i = 1; i <= from.Length; i++)
        {
            var diagonal = row[0];
            row[0] = i;
            for (var j = 1; j <= to.Length; j++)
            {
                var changed = diagonal + (from[i - 1] == to[j - 1] ? 0 : 1);
                diagonal = row[j];
                row[j] = Math.Min(changed, Math.Min(row[j], row[j - 1]) + 1);
            }
        }

        return row[^1];
    }
}
