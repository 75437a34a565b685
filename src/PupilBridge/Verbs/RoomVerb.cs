using System.CommandLine;
using PupilBridge.Clinic.Entries;
using PupilBridge.Clinic.Words;
using PupilBridge.CommandLine;
using PupilBridge.Verbs.Entering;

namespace PupilBridge.Verbs;

/// <summary><c>room</c>: says what the room light is, or where the patient looks.</summary>
internal sealed class RoomVerb : EnteringVerb
{
    private readonly ExamChoice exam = new(aboutNow: true);
    private readonly Argument<string> state = new("state")
    {
        Description = "The room's light, or where the patient looks.",
    };

    public RoomVerb()
        : base("room", "Says what the room light is, or where the patient looks, where the instrument does not tell.")
    {
        state.AcceptOnlyFromAmong([.. ClinicWords.Lights.All, .. ClinicWords.Fixations.All]);
        Add(state);
        Add(exam.Option);
        Example("pupilbridge room dim --who MK", "the lights were turned down just now");
        Example("pupilbridge room near --who MK", "the patient looks at something near");
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
        var word = call.Get(state)!;
        return
        [
            ClinicWords.Lights.All.Contains(word)
                ? new RoomLightEntry
                {
                    EntryId = Typist.NewId(),
                    Who = stamp.Who,
                    At = stamp.At,
                    ProgramVersion = stamp.ProgramVersion,
                    Exam = about,
                    Light = word,
                }
                : new FixationEntry
                {
                    EntryId = Typist.NewId(),
                    Who = stamp.Who,
                    At = stamp.At,
                    ProgramVersion = stamp.ProgramVersion,
                    Exam = about,
                    Fixation = word,
                },
        ];
    }

    /// <inheritdoc/>
    protected override string Words(DeskEntry entry) =>
        entry is RoomLightEntry light ? $"room light {light.Light}" : $"fixation {((FixationEntry)entry).Fixation}";
}
