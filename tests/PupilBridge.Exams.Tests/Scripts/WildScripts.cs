using CsCheck;
using PupilBridge.Constructed.Scripts;
using PupilBridge.Exams.Entries;

namespace PupilBridge.Exams.Tests.Scripts;

/// <summary>Random scripts: any events and entries in any order.</summary>
internal static class WildScripts
{
    private static readonly Gen<string> AnyCommand = Gen.Frequency(
        (5, Gen.Int[0, WildWords.Plain.Length - 1].Select(i => WildWords.Plain[i])),
        (5, OneOf(WildWords.OfOneEye)),
        (5, OneOf(WildWords.OfAnExam)),
        (1, OneOf(WildWords.Bench)),
        (1, OneOf(WildWords.OfARun))
    );

    // Partial exams and runs: a whole one, from which some things are left out and into which one thing is thrown.
    private static readonly Gen<string[]> PartialExam = Partial(WildWords.WholeExam);
    private static readonly Gen<string[]> PartialRun = Partial(WildWords.WholeRun);

    // A defect is rare among wild judgements; some exams show one from the start.
    private static readonly Gen<string[]> PartialDefect = Partial([
        .. WildWords.WholeExam.Select(word => word == "swing short alike" ? "swing short R" : word),
    ]);

    // Journals that begin as an exam does get further into it than wild ones; all kinds are tried.
    public static readonly Gen<string[]> Any = Gen.Frequency(
        (3, AnyCommand.Array[1, 60]),
        (
            3,
            AnyCommand
                .Array[1, 60]
                .Select(rest => (string[])["meet A", "bright", "open Q-1", "+500", "mode measure", .. rest])
        ),
        (5, PartialExam),
        (1, PartialDefect),
        (1, PartialRun)
    );

    /// <summary>The same command with left and right exchanged.</summary>
    public static string Mirror(string command) =>
        string.Join(
            ' ',
            command
                .Split(' ')
                .Select(w =>
                    w == "R" ? "L"
                    : w == "L" ? "R"
                    : w
                )
        );

    private static Gen<string> OneOf(string[] words) =>
        Gen.Select(Gen.Int[0, words.Length - 1], Gen.Bool).Select((i, m) => m ? Mirror(words[i]) : words[i]);

    private static Gen<string[]> Partial(string[] whole) =>
        Gen.Select(Gen.Int[0, 9].Array[whole.Length], Gen.Int[1, 9], AnyCommand, Gen.Int[0, whole.Length])
            .Select(
                (dice, odds, thrown, at) =>
                {
                    var kept = whole.Where((_, i) => dice[i] >= odds - 1 || i < 3).ToList();
                    kept.Insert(Math.Min(at, kept.Count), thrown);
                    return kept.ToArray();
                }
            );

    /// <summary>What a script adds up to.</summary>
    public static Folded Run(string[] script)
    {
        var commands = new ScriptCommands();
        foreach (var command in script)
        {
            // An entry about an exam or a run needs one to name.
            if (NeedsExam(command) && commands.LastExamOf(commands.LaneOf("Q7")) is null)
                continue;
            if (NeedsRun(command) && commands.LastRunOf(commands.LaneOf("Q7")) is null)
                continue;
            if (command == "again" && !commands.Journal.Any(e => e.Entry is InstrumentReported))
                continue;
            commands.Do(command);
        }

        return Folded.Of(commands.Journal);
    }

    private static bool NeedsExam(string command) => IsAmong(WildWords.OfAnExam, command);

    private static bool NeedsRun(string command) => IsAmong(WildWords.OfARun, command);

    private static bool IsAmong(string[] words, string command) =>
        words.Contains(command) || words.Contains(Mirror(command));
}
