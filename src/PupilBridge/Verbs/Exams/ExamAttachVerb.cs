using System.CommandLine;
using PupilBridge.Clinic.Entries;
using PupilBridge.CommandLine;
using PupilBridge.Verbs.Entering;

namespace PupilBridge.Verbs.Exams;

/// <summary><c>exam attach</c>: says whose exam it is.</summary>
internal sealed class ExamAttachVerb : EnteringVerb
{
    private readonly ExamChoice exam = new();
    private readonly Argument<string> patient = new("patient") { Description = "The clinic's number for the patient." };

    private readonly Option<string?> reason = new("--reason")
    {
        Description = "Why, if there is something to say. Needed where the exam had another patient.",
        HelpName = "TEXT",
    };

    public ExamAttachVerb()
        : base("attach", "Says whose exam it is; with --reason it moves an exam from one patient to another.")
    {
        Add(patient);
        Add(exam.Option);
        Add(reason);
        Example("pupilbridge exam attach Q-1001 --who MK", "the open exam is that of patient Q-1001");
        Example(
            "pupilbridge exam attach Q-1002 --exam 42 --reason \"wrong chart\" --who MK",
            "moves exam 42 to Q-1002"
        );
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
        var known = await sending.Access.AskAsync(desk => desk.ShowExamAsync(about, cancel)).ConfigureAwait(false);
        if (known?.Summary.Patient is { } before && call.Get(reason) is { } why)
        {
            call.Remark($"pupilbridge: exam {about} moves from patient {before} to {call.Get(patient)}.");
            return
            [
                new MoveEntry
                {
                    EntryId = Typist.NewId(),
                    Who = stamp.Who,
                    At = stamp.At,
                    ProgramVersion = stamp.ProgramVersion,
                    Exam = about,
                    Patient = call.Get(patient)!,
                    Reason = why,
                },
            ];
        }

        return
        [
            new AttachEntry
            {
                EntryId = Typist.NewId(),
                Who = stamp.Who,
                At = stamp.At,
                ProgramVersion = stamp.ProgramVersion,
                Exam = about,
                Patient = call.Get(patient)!,
                Reason = call.Get(reason),
            },
        ];
    }

    /// <inheritdoc/>
    protected override string Words(DeskEntry entry) =>
        entry switch
        {
            AttachEntry attach => $"patient {attach.Patient}",
            MoveEntry move => $"moved to patient {move.Patient}",
            _ => "",
        };
}
