using System.Diagnostics;
using PupilBridge.Clinic.Desk;
using PupilBridge.Clinic.House;
using PupilBridge.Clinic.Records;
using PupilBridge.Clinic.Views;
using PupilBridge.Exams.Entries;
using PupilBridge.Measure.Figures;
using PupilBridge.Scenarios;
using PupilBridge.Worker;
using PupilBridge.Worker.Options;

namespace PupilBridge.Measure.Growth;

/// <summary>What people and lines wait for, on a running bridge in this process. Times are medians in milliseconds.</summary>
/// <param name="Event">From an event given to the journal until it is acknowledged; the exam log follows meanwhile.</param>
/// <param name="Entry">From a person's entry until it is recorded, its id looked for among all there are.</param>
/// <param name="Repeat">An entry of long ago sent again, until it is known as a repetition.</param>
/// <param name="History">A patient's history of four visits, whole.</param>
/// <param name="Today">The day's list of 100 patients with what became of each.</param>
/// <param name="Latest">A page of the 50 latest exams.</param>
internal sealed record AskingTimes(
    double Event,
    double Entry,
    double Repeat,
    double History,
    double Today,
    double Latest
)
{
    private const int Rounds = 200;

    public static async Task<AskingTimes> MeasureAsync(string dataFolder, long exams)
    {
        var options = new BridgeOptions { DataFolder = dataFolder };
        options.Ports.Add("memory:none");
        await using var bridge = Bridge.Open(KeptData.Parts(options));
        var house = new BridgeHouse(bridge, isLive: false);
        var clinic = new ClinicDesk(house);
        using var records = new RecordDesk(house, TimeProvider.System);
        var dice = new Random(7);
        var history = await MedianAsync(async () =>
        {
            var patient = GrowingJournal.PatientOf(dice.NextInt64(exams), exams);
            var found = await records.HistoryAsync(patient.Value, 50, default);
            Require(found.Visits.Count > 0, $"{patient} has no visits");
        });
        var today = await MedianAsync(async () =>
        {
            var list = await records.DayListAsync(GrowingJournal.Today, default);
            Require(list.Items.Count > 0, "the day's list is empty");
        });
        var latest = await MedianAsync(async () =>
        {
            var page = await clinic.ListExamsAsync(new ExamListRequest { Limit = 50 }, default);
            Require(page.Exams.Count == 50, "the page is not full");
        });
        var first = FirstEntry(bridge);
        var repeat = await MedianAsync(async () =>
        {
            var receipt = await bridge.Keeper.RecordAsync(first);
            Require(receipt.IsRepeat, "an entry of long ago was recorded twice");
        });
        var entry = await MedianAsync(async () => await bridge.Keeper.RecordAsync(Note(dice)));
        var one = await EventTimes.MedianAsync(bridge);
        await bridge.StopAsync();
        return new AskingTimes(one, entry, repeat, history, today, latest);
    }

    private static PersonEntry FirstEntry(Bridge bridge)
    {
        for (var sequence = 1L; ; sequence++)
        {
            if (bridge.ReadEntry(new JournalSequence(sequence))?.Entry is PersonEntry person)
                return person;
        }
    }

    private static PatientEntered Note(Random dice)
    {
        var bytes = new byte[16];
        dice.NextBytes(bytes);
        return new PatientEntered
        {
            Id = EntryId.From(new Guid(bytes)),
            Who = new PersonId("MK"),
            At = UtcTime.From(TimeProvider.System.GetUtcNow()),
            ProgramVersion = "growth",
            Patient = new PatientId("Q-0001"),
            Details = null,
        };
    }

    private static async Task<double> MedianAsync(Func<Task> ask)
    {
        for (var warm = 0; warm < 20; warm++)
            await ask();
        var times = new List<double>();
        for (var round = 0; round < Rounds; round++)
        {
            var begin = Stopwatch.GetTimestamp();
            await ask();
            times.Add(Stopwatch.GetElapsedTime(begin).TotalMilliseconds);
        }

        return Spread.Of(times).Median;
    }

    private static void Require(bool isSo, string fault)
    {
        if (!isSo)
            throw new InvalidOperationException($"What was measured is not what was meant: {fault}.");
    }
}
