using System.Globalization;
using PupilBridge.Clinic;
using PupilBridge.Clinic.Entries;
using PupilBridge.Simulator;
using PupilBridge.Simulator.Examiners;

namespace PupilBridge.Demo;

/// <summary>
/// Puts down what the simulated examiner does and says, through the same desk as a person at the command line. The ids of
/// the entries are drawn from the demo's seed, so that the same seed gives the same journal.
/// </summary>
/// <param name="desk">The desk.</param>
/// <param name="plan">The demo.</param>
/// <param name="time">The demo's clock.</param>
/// <param name="programVersion">The version that stands in each entry.</param>
internal sealed class DemoExaminer(IClinicDesk desk, DemoPlan plan, SteppedTime time, string programVersion)
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(3);
    private readonly Chance ids = new(plan.Seed, "entries of the examiner");

    /// <summary>The examiner's initials.</summary>
    public string Initials => plan.Scenario.Examiner.Initials;

    /// <summary>Adds the patient and opens the exam.</summary>
    /// <param name="serial">The instrument's serial number.</param>
    /// <param name="cancel">Gives up.</param>
    /// <returns>The exam's number.</returns>
    public async Task<long> OpenAsync(string serial, CancellationToken cancel)
    {
        await EnterAsync(
                new PatientEntry
                {
                    EntryId = NewId(),
                    Who = Initials,
                    At = time.GetUtcNow(),
                    ProgramVersion = programVersion,
                    Patient = plan.Scenario.PatientNumber,
                },
                cancel
            )
            .ConfigureAwait(false);
        var opened = await EnterAsync(
                new OpenExamEntry
                {
                    EntryId = NewId(),
                    Who = Initials,
                    At = time.GetUtcNow(),
                    ProgramVersion = programVersion,
                    Instrument = serial,
                    Patient = plan.Scenario.PatientNumber,
                },
                cancel
            )
            .ConfigureAwait(false);
        return opened.Exam ?? opened.Sequence;
    }

    /// <summary>Puts down what was said.</summary>
    /// <param name="spoken">What was said.</param>
    /// <param name="exam">The exam.</param>
    /// <param name="cancel">Gives up.</param>
    /// <returns>How it reads, and where it stands in the journal.</returns>
    public async Task<(string Words, long Sequence)> SayAsync(
        SpokenJudgement spoken,
        long exam,
        CancellationToken cancel
    )
    {
        var stamp = new EntryStamp(Initials, time.GetUtcNow(), programVersion);
        if (SpokenWords.Typed(spoken) is { } typed)
        {
            var entries = DeskEntries.Judgements(typed, stamp, exam, NewId);
            var sequence = 0L;
            foreach (var entry in entries)
            {
                sequence = (await EnterAsync(entry, cancel).ConfigureAwait(false)).Sequence;
            }

            return (typed, sequence);
        }

        var ready = await EnterAsync(
                new MakeReadyEntry
                {
                    EntryId = NewId(),
                    Who = stamp.Who,
                    At = stamp.At,
                    ProgramVersion = stamp.ProgramVersion,
                    Exam = exam,
                },
                cancel
            )
            .ConfigureAwait(false);
        return ("ready for review", ready.Sequence);
    }

    private async Task<EntryOutcome.Recorded> EnterAsync(DeskEntry entry, CancellationToken cancel)
    {
        // What the instrument has told is on disk; the exam that is made of it may need a moment longer.
        var until = TimeProvider.System.GetTimestamp();
        while (true)
        {
            switch (await desk.EnterAsync(entry, cancel).ConfigureAwait(false))
            {
                case EntryOutcome.Recorded recorded:
                    return recorded;
                case EntryOutcome.Refused refused when TimeProvider.System.GetElapsedTime(until) > Patience:
                    throw new DemoFailure($"{Words(entry)} was refused: {refused.Reason} {refused.NextStep}");
                case EntryOutcome.Refused:
                    await Task.Delay(5, cancel).ConfigureAwait(false);
                    break;
                default:
                    throw new DemoFailure($"{Words(entry)} had been recorded before, in a folder that was empty.");
            }
        }
    }

    private static string Words(DeskEntry entry) =>
        entry is JudgementEntry judgement ? $"'{judgement.Judgement}'" : entry.GetType().Name;

    private string NewId() => string.Create(CultureInfo.InvariantCulture, $"{ids.NextBits():x16}{ids.NextBits():x16}");
}

/// <summary>The demo could not go on; the message says why.</summary>
/// <param name="message">For a person.</param>
internal sealed class DemoFailure(string message) : Exception(message);
