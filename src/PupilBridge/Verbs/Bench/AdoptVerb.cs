using System.CommandLine;
using PupilBridge.Clinic.Entries;
using PupilBridge.CommandLine;
using PupilBridge.Verbs.Entering;

namespace PupilBridge.Verbs.Bench;

/// <summary><c>calibration adopt</c>: the repeatability that a study found counts from now on.</summary>
internal sealed class AdoptVerb : EnteringVerb
{
    private readonly Argument<long> run = new("run") { Description = "The study's number." };

    public AdoptVerb()
        : base(
            "adopt",
            "Lets the repeatability that a study on a person found count for the instrument's exams from now on, in place of the profile's."
        )
    {
        Add(run);
        Example("pupilbridge calibration adopt 431 --who TE", "the repeatability of run 431");
    }

    /// <inheritdoc/>
    protected override string Sitting => "run";

    /// <inheritdoc/>
    protected override Task<IReadOnlyList<DeskEntry>> EntriesAsync(
        Call call,
        EntryStamp stamp,
        EntrySending sending,
        CancellationToken cancel
    ) =>
        Task.FromResult<IReadOnlyList<DeskEntry>>([
            new AdoptRepeatabilityEntry
            {
                EntryId = Typist.NewId(),
                Who = stamp.Who,
                At = stamp.At,
                ProgramVersion = stamp.ProgramVersion,
                Run = call.Get(run),
            },
        ]);

    /// <inheritdoc/>
    protected override string Words(DeskEntry entry) =>
        entry is AdoptRepeatabilityEntry adopted ? $"the repeatability of run {adopted.Run} counts from now on" : "";
}
