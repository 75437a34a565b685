using System.CommandLine;
using System.Globalization;
using PupilBridge.Clinic.Entries;
using PupilBridge.Clinic.Views;
using PupilBridge.CommandLine;
using PupilBridge.Verbs.Entering;

namespace PupilBridge.Verbs.Patients;

/// <summary><c>patients erase</c>: what identifies a patient is erased for good, and the erasure is journalled.</summary>
internal sealed class PatientsEraseVerb : EnteringVerb
{
    private readonly Argument<string> patient = new("patient")
    {
        Description = "The patient's number; numbers merged into it are erased with it.",
    };

    private readonly Option<string> reason = new("--reason")
    {
        Description = "Why, for the journal. It stays readable: do not say who the patient is.",
        HelpName = "TEXT",
        Required = true,
    };

    private readonly Option<string> orderedBy = new("--ordered-by")
    {
        Description = "Who ordered it, such as initials; for the journal.",
        HelpName = "WHO",
        Required = true,
    };

    private readonly Option<bool> yes = new("--yes")
    {
        Description = "Do not ask for the number to be typed once more.",
    };

    public PatientsEraseVerb()
        : base(
            "erase",
            "Erases for good what identifies a patient: name, date of birth, numbers, remarks, reasons and signed records. Readings stay and "
                + "stand for nobody. It cannot be taken back."
        )
    {
        Add(patient);
        foreach (var option in (ReadOnlySpan<Option>)[reason, orderedBy, yes])
        {
            Add(option);
        }

        Example(
            "pupilbridge patients erase Q-1001 --reason \"request 17 of this year\" --ordered-by DPO --who AD",
            "asks for the number once more, then erases"
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
        var number = call.Get(patient)!;
        if (!call.Get(yes))
        {
            var list = await sending
                .Access.AskAsync(desk =>
                    desk.ListExamsAsync(new ExamListRequest { Patient = number, Limit = 500 }, cancel)
                )
                .ConfigureAwait(false);
            Confirm(call, number, list);
        }

        return
        [
            new ErasePatientEntry
            {
                EntryId = Typist.NewId(),
                Who = stamp.Who,
                At = stamp.At,
                ProgramVersion = stamp.ProgramVersion,
                Patient = number,
                OrderedBy = call.Get(orderedBy)!,
                Reason = call.Get(reason)!,
            },
        ];
    }

    /// <inheritdoc/>
    protected override string Words(DeskEntry entry) =>
        "what identified the patient is erased; readings stay and stand for nobody";

    private static void Confirm(Call call, string number, ExamList exams)
    {
        var count = string.Create(
            CultureInfo.InvariantCulture,
            $"{exams.Exams.Count}{(exams.Next is null ? "" : " or more")}"
        );
        call.Remark(
            $"This erases for good what identifies patient {number}, and all remarks, reasons and signed records of {count} exam(s). "
                + "It cannot be taken back."
        );
        call.Remark($"Type the number once more to erase ({number}):");
        if (call.Terminal.In.ReadLine()?.Trim() != number)
        {
            throw new CommandFailure(
                ExitCode.Refused,
                "The number was not typed as it is, and nothing was erased.",
                "Run the command again and type the number, or give --yes."
            );
        }
    }
}
