using System.CommandLine;
using PupilBridge.Clinic.Entries;
using PupilBridge.Clinic.Words;
using PupilBridge.CommandLine;
using PupilBridge.Verbs.Entering;

namespace PupilBridge.Verbs;

/// <summary><c>eye-status</c>: says what may be amiss with an eye before the test.</summary>
internal sealed class EyeStatusVerb : EnteringVerb
{
    private readonly ExamChoice exam = new(aboutNow: true);
    private readonly Argument<string> eye = new("eye") { Description = "Which eye." };

    private readonly Argument<string[]> conditions = new("conditions")
    {
        Description = "What holds of it.",
        Arity = ArgumentArity.OneOrMore,
    };

    public EyeStatusVerb()
        : base("eye-status", "Says what holds of an eye before the test, and so what is unreliable there.")
    {
        eye.AcceptOnlyFromAmong(StringComparer.OrdinalIgnoreCase, [.. ClinicWords.Eyes.All]);
        conditions.AcceptOnlyFromAmong([.. ClinicWords.Conditions.All]);
        Add(eye);
        Add(conditions);
        Add(exam.Option);
        Example("pupilbridge eye-status OS drops --who MK", "drops were put into the left eye");
        Example("pupilbridge eye-status OD nothing-remarkable --who MK", "someone looked, and nothing is amiss");
    }

    /// <inheritdoc/>
    protected override async Task<IReadOnlyList<DeskEntry>> EntriesAsync(
        Call call,
        EntryStamp stamp,
        EntrySending sending,
        CancellationToken cancel
    ) =>
        [
            new EyeStatusEntry
            {
                EntryId = Typist.NewId(),
                Who = stamp.Who,
                At = stamp.At,
                ProgramVersion = stamp.ProgramVersion,
                Exam = await exam.ResolveAsync(call, sending.Access, cancel).ConfigureAwait(false),
                Eye = call.Get(eye)!.ToUpperInvariant(),
                Conditions = call.Get(conditions)!,
            },
        ];

    /// <inheritdoc/>
    protected override string Words(DeskEntry entry) =>
        entry is EyeStatusEntry status ? $"{status.Eye} {string.Join(", ", status.Conditions)}" : "";
}
