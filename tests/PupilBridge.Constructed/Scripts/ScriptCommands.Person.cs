using PupilBridge.Exams.Entries;

namespace PupilBridge.Constructed.Scripts;

/// <content>What people enter.</content>
public sealed partial class ScriptCommands
{
    private bool PersonSays(string[] w)
    {
        switch (w[0])
        {
            case "open":
                PatientId? patient = w.Length > 1 ? new PatientId(w[1]) : null;
                Put(
                    new ExamOpened
                    {
                        Id = NextId(),
                        Who = new("AB"),
                        At = new(clock),
                        ProgramVersion = "0",
                        Serial = lane.Serial,
                        Patient = patient,
                    }
                );
                return true;
            case "patient":
                Put(
                    new PatientEntered
                    {
                        Id = NextId(),
                        Who = new("AB"),
                        At = new(clock),
                        ProgramVersion = "0",
                        Patient = new(w[1]),
                        Details = null,
                    }
                );
                return true;
            case "twice": // twice LABEL COMMAND: the command under the name of an earlier entry
                forcedId = labels[w[1]].Id;
                Do($"@{lane.Serial} {string.Join(' ', w[2..])}");
                forcedId = null;
                return true;
            default:
                return AboutExam(w);
        }
    }

    private bool AboutExam(string[] w)
    {
        var target = lane;
        ExamId? exam = null;
        if (w[^1].StartsWith("exam=", StringComparison.Ordinal))
        {
            exam = ExamId.OpenedBy(labels[w[^1][5..]].Sequence);
            w = w[..^1];
        }

        var who = "AB";
        if (w[^1].StartsWith("by=", StringComparison.Ordinal))
        {
            who = w[^1][3..];
            w = w[..^1];
        }

        JournalSequence? saw = null;
        if (w[^1].StartsWith("saw=", StringComparison.Ordinal))
        {
            saw = labels[w[^1][4..]].Sequence;
            w = w[..^1];
        }

        if (PersonEntries.Make(w, labels, saw) is not { } make)
            return false;
        exam ??=
            (isAstray ? LastRunOf(target)?.Id : LastExamOf(target))
            ?? throw new ArgumentException($"{target.Serial} has no exam yet: {w[0]}");
        Put(make(new(NextId(), new(who), new(clock), "0"), exam.Value));
        return true;
    }
}
