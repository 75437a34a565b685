using System.CommandLine;
using PupilBridge.Clinic.Entries;
using PupilBridge.CommandLine;
using PupilBridge.Verbs.Entering;

namespace PupilBridge.Verbs.Exams;

/// <summary><c>exam open</c>: opens an exam for a patient.</summary>
internal sealed class ExamOpenVerb : EnteringVerb
{
    private readonly Option<string?> patient = new("--patient")
    {
        Description = "The clinic's number for the patient. It can be said later with 'exam attach'.",
        HelpName = "NUMBER",
    };

    private readonly Option<string?> instrument = new("--instrument")
    {
        Description = "The instrument's serial number. Without it: the one that is connected.",
        HelpName = "SERIAL",
    };

    public ExamOpenVerb()
        : base("open", "Opens an exam. One opens by itself, too, when the dial leaves idle.")
    {
        Add(patient);
        Add(instrument);
        Example("pupilbridge exam open --patient Q-1001 --who MK", "opens an exam of patient Q-1001");
    }

    /// <inheritdoc/>
    protected override async Task<IReadOnlyList<DeskEntry>> EntriesAsync(
        Call call,
        EntryStamp stamp,
        EntrySending sending,
        CancellationToken cancel
    ) =>
        [
            new OpenExamEntry
            {
                EntryId = Typist.NewId(),
                Who = stamp.Who,
                At = stamp.At,
                ProgramVersion = stamp.ProgramVersion,
                Patient = call.Get(patient),
                Instrument = call.Get(instrument) ?? await OnlyOneAsync(sending, cancel).ConfigureAwait(false),
            },
        ];

    /// <inheritdoc/>
    protected override string Words(DeskEntry entry) =>
        entry is OpenExamEntry open ? $"exam of {open.Patient ?? "nobody yet"} with instrument {open.Instrument}" : "";

    private static async Task<string> OnlyOneAsync(EntrySending sending, CancellationToken cancel)
    {
        var list = await sending.Access.AskAsync(desk => desk.ListInstrumentsAsync(cancel)).ConfigureAwait(false);
        var connected = list.Instruments.Where(i => i.Line == "connected").ToList();
        return (connected.Count > 0 ? connected : list.Instruments) switch
        {
            [var only] => only.Instrument,
            [] => throw new CommandFailure(
                ExitCode.NotFound,
                "No instrument has been met on this data folder.",
                "Connect one while 'pupilbridge serve' runs, or name it with --instrument SERIAL."
            ),
            var several => throw new CommandFailure(
                ExitCode.Refused,
                $"There are {several.Count} instruments: {string.Join(", ", several.Select(i => i.Instrument))}.",
                "Name the one that is meant with --instrument SERIAL."
            ),
        };
    }
}
