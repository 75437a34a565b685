using System.Globalization;

namespace PupilBridge.Verbs.Bench.Guided;

/// <summary>What a technician wants, typed on one line during a run.</summary>
internal abstract record RunWish
{
    private RunWish() { }

    /// <summary>An empty line: finish it, if nothing is missing.</summary>
    internal sealed record Finish : RunWish;

    /// <summary><c>f</c>: finish it though readings are missing.</summary>
    internal sealed record FinishAnyway : RunWish;

    /// <summary><c>x NUMBER REASON</c> sets a reading aside, <c>u NUMBER REASON</c> lets it count again.</summary>
    internal sealed record Mark(int Number, bool IsSetAside, string Reason) : RunWish;

    /// <summary><c>q REASON</c>: give it up.</summary>
    internal sealed record GiveUp(string Reason) : RunWish;

    /// <summary><c>bright</c> or <c>dim</c>: how the room is lit now.</summary>
    internal sealed record Light(string Word) : RunWish;

    /// <summary>Anything else.</summary>
    internal sealed record NotUnderstood(string Why) : RunWish;

    /// <summary>Understands a line.</summary>
    /// <param name="line">The line without blanks around it.</param>
    public static RunWish Of(string line)
    {
        var words = line.Split((char[]?)null, 3, StringSplitOptions.RemoveEmptyEntries);
        return words switch
        {
            [] => new Finish(),
            ["f"] => new FinishAnyway(),
            ["bright" or "dim"] => new Light(words[0]),
            ["q"] => new NotUnderstood("Say why it is given up: q REASON."),
            ["q", ..] => new GiveUp(line[1..].Trim()),
            ["x" or "u", var number, var reason]
                when int.TryParse(number, NumberStyles.None, CultureInfo.InvariantCulture, out var reading) => new Mark(
                reading,
                words[0] == "x",
                reason
            ),
            ["x" or "u", ..] => new NotUnderstood(
                $"Give the reading's number and why: {words[0]} NUMBER REASON, such as '{words[0]} 7 the disc slipped'."
            ),
            _ => new NotUnderstood($"'{line}' is not understood."),
        };
    }
}
