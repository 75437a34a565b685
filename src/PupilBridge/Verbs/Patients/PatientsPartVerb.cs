using System.CommandLine;
using PupilBridge.Clinic.Entries;
using PupilBridge.CommandLine;
using PupilBridge.Verbs.Entering;

namespace PupilBridge.Verbs.Patients;

/// <summary><c>patients part</c>: a merging was a mistake. Who and why is journalled.</summary>
internal sealed class PatientsPartVerb : EnteringVerb
{
    private readonly Argument<string> merged = new("patient")
    {
        Description = "The number that was merged into another.",
    };

    private readonly Option<string> reason = new("--reason")
    {
        Description = "Why, for the journal.",
        HelpName = "TEXT",
        Required = true,
    };

    public PatientsPartVerb()
        : base("part", "Takes the merging of a number back: both numbers stand for a person of their own again.")
    {
        Add(merged);
        Add(reason);
        Example(
            "pupilbridge patients part Q-1004 --reason \"a cousin of that name\" --who AD",
            "Q-1004 is somebody else"
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
            new PartEntry
            {
                EntryId = Typist.NewId(),
                Who = stamp.Who,
                At = stamp.At,
                ProgramVersion = stamp.ProgramVersion,
                Merged = call.Get(merged)!,
                Reason = call.Get(reason)!,
            },
        ]);

    /// <inheritdoc/>
    protected override string Words(DeskEntry entry) =>
        entry is PartEntry part ? $"the merging of {part.Merged} is taken back" : "";
}
