using System.CommandLine;
using PupilBridge.Clinic.Entries;
using PupilBridge.CommandLine;
using PupilBridge.Verbs.Entering;

namespace PupilBridge.Verbs.Patients;

/// <summary><c>patients merge</c>: two numbers are one person. No exam moves; who and why is journalled.</summary>
internal sealed class PatientsMergeVerb : EnteringVerb
{
    private readonly Argument<string> merged = new("patient")
    {
        Description = "The number that is not to be used any more.",
    };

    private readonly Option<string> into = new("--into")
    {
        Description = "The number that goes on for the person.",
        HelpName = "NUMBER",
        Required = true,
    };

    private readonly Option<string> reason = new("--reason")
    {
        Description = "Why, for the journal.",
        HelpName = "TEXT",
        Required = true,
    };

    private readonly Option<bool> despite = new("--despite-birth-dates")
    {
        Description = "Merge them though they are known with different dates of birth.",
    };

    public PatientsMergeVerb()
        : base(
            "merge",
            "Says that two numbers are one person: what is shown of the person then holds the exams of both. It can be taken back."
        )
    {
        Add(merged);
        foreach (var option in (ReadOnlySpan<Option>)[into, reason, despite])
        {
            Add(option);
        }

        Example(
            "pupilbridge patients merge Q-1004 --into Q-1001 --reason \"entered twice at the gate\" --who AD",
            "Q-1001 goes on"
        );
    }

    /// <inheritdoc/>
    protected override Task<IReadOnlyList<DeskEntry>> EntriesAsync(
        Call call,
        EntryStamp stamp,
        EntrySending sending,
        CancellationToken cancel
    ) =>
        Task.FromResult<IReadOnlyList<DeskEntry>>([
            new MergeEntry
            {
                EntryId = Typist.NewId(),
                Who = stamp.Who,
                At = stamp.At,
                ProgramVersion = stamp.ProgramVersion,
                Kept = call.Get(into)!,
                Merged = call.Get(merged)!,
                IsDespiteBirthDates = call.Get(despite),
                Reason = call.Get(reason)!,
            },
        ]);

    /// <inheritdoc/>
    protected override string Words(DeskEntry entry) =>
        entry is MergeEntry merge ? $"{merge.Merged} is merged into {merge.Kept}" : "";
}
