using CsCheck;
using PupilBridge.Constructed.Scripts;
using PupilBridge.Exams.Entries;

namespace PupilBridge.Exams.Tests.Scripts;

/// <summary>Random scripts: any events and entries in any order.</summary>
internal static class WildScripts
{
    private static readonly Gen<string> AnyCommand = Gen.OneOf(
        Gen.Int[0, WildWords.Plain.Length - 1].Select(i => WildWords.Plain[i]),
        Gen.Select(Gen.Int[0, WildWords.OfOneEye.Length - 1], Gen.Bool)
            .Select((i, m) => m ? Mirror(WildWords.OfOneEye[i]) : WildWords.OfOneEye[i]),
        Gen.Select(Gen.Int[0, WildWords.OfAnExam.Length - 1], Gen.Bool)
            .Select((i, m) => m ? Mirror(WildWords.OfAnExam[i]) : WildWords.OfAnExam[i])
    );

    // Partial exams: a whole one, from which some things are left out and into which one thing is thrown.
    private static readonly Gen<string[]> PartialExam = Gen.Select(
            Gen.Int[0, 9].Array[WildWords.WholeExam.Length],
            Gen.Int[1, 9],
            AnyCommand,
            Gen.Int[0, WildWords.WholeExam.Length]
        )
        .Select(
            (dice, odds, thrown, at) =>
            {
                var kept = WildWords.WholeExam.Where((_, i) => dice[i] >= odds - 1 || i < 3).ToList();
                kept.Insert(Math.Min(at, kept.Count), thrown);
                return kept.ToArray();
            }
        );

    // Journals that begin as an exam does get further into it than wild ones; all three kinds are tried.
    public static readonly Gen<string[]> Any = Gen.OneOf(
        AnyCommand.Array[1, 60],
        AnyCommand
            .Array[1, 60]
            .Select(rest => (string[])["meet A", "bright", "open Q-1", "+500", "mode measure", .. rest]),
        PartialExam
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

    /// <summary>What a script adds up to.</summary>
    public static Folded Run(string[] script)
    {
        var commands = new ScriptCommands();
        foreach (var command in script)
        {
            // An entry about an exam needs one to name.
            var needsExam = WildWords.OfAnExam.Contains(command) || WildWords.OfAnExam.Contains(Mirror(command));
            if (needsExam && commands.LastExamOf(commands.LaneOf("Q7")) is null)
                continue;
            if (command == "again" && !commands.Journal.Any(e => e.Entry is InstrumentReported))
                continue;
            commands.Do(command);
        }

        return Folded.Of(commands.Journal);
    }
}
