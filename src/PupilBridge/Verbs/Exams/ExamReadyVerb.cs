using System.CommandLine;
using PupilBridge.Clinic.Entries;
using PupilBridge.Clinic.Words;
using PupilBridge.CommandLine;
using PupilBridge.Verbs.Entering;

namespace PupilBridge.Verbs.Exams;

/// <summary><c>exam ready</c>: the examiner is done.</summary>
internal sealed class ExamReadyVerb : EnteringVerb
{
    private readonly ExamChoice exam = new();

    private readonly Option<string[]> notExamined = new("--not-examined")
    {
        Description = "Accept that these steps stay not examined.",
        HelpName = "STEP",
        AllowMultipleArgumentsPerToken = true,
    };

    public ExamReadyVerb()
        : base("ready", "Says that the examiner is done; the exam awaits review and takes no more events.")
    {
        notExamined.AcceptOnlyFromAmong([.. ClinicWords.Steps.All]);
        Add(exam.Option);
        Add(notExamined);
        Example("pupilbridge exam ready --who MK", "the open exam is done");
        Example("pupilbridge exam ready --not-examined near --who MK", "done, and the near response was not examined");
    }

    /// <inheritdoc/>
    protected override async Task<IReadOnlyList<DeskEntry>> EntriesAsync(
        Call call,
        EntryStamp stamp,
        EntrySending sending,
        CancellationToken cancel
    )
    {
        var about = await exam.ResolveAsync(call, sending.Access, cancel).ConfigureAwait(false);
        var entries = new List<DeskEntry>();
        if (call.Get(notExamined) is { Length: > 0 } steps)
        {
            entries.Add(
                new NotExaminedEntry
                {
                    EntryId = Typist.NewId(),
                    Who = stamp.Who,
                    At = stamp.At,
                    ProgramVersion = stamp.ProgramVersion,
                    Exam = about,
                    Steps = steps,
                }
            );
        }

        entries.Add(
            new MakeReadyEntry
            {
                EntryId = Typist.NewId(),
                Who = stamp.Who,
                At = stamp.At,
                ProgramVersion = stamp.ProgramVersion,
                Exam = about,
            }
        );
        return entries;
    }

    /// <inheritdoc/>
    protected override string Words(DeskEntry entry) =>
        entry is NotExaminedEntry without ? $"not examined: {string.Join(", ", without.Steps)}" : "ready for review";
}
