using System.Globalization;
using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Exams.Entries;
using PupilBridge.Exchange.Sending;

namespace PupilBridge.Scenarios.Sending;

/// <summary>
/// Many signed records sent to a server at which something goes wrong with every third transaction, by seed, while the sender and the bridge
/// are stopped and started, the exam log is made anew and the server vanishes for a while.
/// </summary>
/// <param name="folder">Where the bridge's folder is made.</param>
/// <param name="seed">The seed of what goes wrong.</param>
/// <param name="payloads">Makes messages of records.</param>
public sealed class OutboxStorm(string folder, int seed, IRecordPayloads? payloads = null)
{
    private const int Patients = 7;
    private const int RecordsPerRun = 25;

    private static readonly ServerFault[] Kinds =
    [
        .. Enum.GetValues<ServerFault>().Except([ServerFault.None, ServerFault.Refuses]),
    ];

    private readonly Random chance = new(seed);
    private readonly Lock gate = new();
    private readonly Dictionary<ServerFault, int> happened = [];

    /// <summary>Runs it.</summary>
    /// <param name="records">How many records are signed.</param>
    /// <param name="honours">Whether the server keeps to conditions on creation.</param>
    /// <param name="limit">How long it may take.</param>
    public async Task<StormResult> RunAsync(int records, bool honours, TimeSpan limit)
    {
        await using var house = new SendingHouse(folder);
        await using var server = await SmallFhirServer.StartAsync();
        server.Shelf.HonoursConditions = honours;
        server.Slowness = TimeSpan.FromMilliseconds(600);
        server.Lateness = TimeSpan.FromMilliseconds(150);
        server.Faults = _ => Next();
        var settings = SendingRun.To(server) with { Timeout = TimeSpan.FromMilliseconds(400) };
        var signed = new List<(ExamId Exam, string Patient)>();
        for (var round = 0; signed.Count < records; round++)
        {
            await using (new SendingRun(house.Outbox, settings, payloads, seed + round))
            {
                for (var i = 0; i < RecordsPerRun && signed.Count < records; i++)
                {
                    var patient = string.Create(CultureInfo.InvariantCulture, $"Q-{1001 + Draw(Patients)}");
                    signed.Add((await house.SignAsync(patient), patient));
                }

                await DisturbAsync(round, house, server);
            }

            if (round % 2 == 1)
            {
                await house.RestartAsync();
            }
        }

        var watch = System.Diagnostics.Stopwatch.StartNew();
        await using (new SendingRun(house.Outbox, settings, payloads, seed))
        {
            while (watch.Elapsed < limit && signed.Any(one => OutboxStates.IsOpen(house.State(one.Exam))))
            {
                await Task.Delay(50);
            }
        }

        // A copy that is stored late would come now.
        await Task.Delay(2 * server.Lateness);
        return Count(house, server, signed);
    }

    private static async Task DisturbAsync(int round, SendingHouse house, SmallFhirServer server)
    {
        switch (round % 3)
        {
            case 0:
                await house.RebuildAsync();
                break;
            case 1:
                await server.VanishAsync();
                await Task.Delay(300);
                await server.ComeBackAsync();
                break;
        }
    }

    private StormResult Count(SendingHouse house, SmallFhirServer server, List<(ExamId Exam, string Patient)> signed)
    {
        var arrivals = server.Shelf.Arrivals;
        var copies = arrivals.CountBy(key => key).ToDictionary(StringComparer.Ordinal);
        var place = arrivals
            .Distinct()
            .Index()
            .ToDictionary(pair => pair.Item, pair => pair.Index, StringComparer.Ordinal);
        var outOfOrder = signed
            .GroupBy(one => one.Patient)
            .Sum(ofOne =>
            {
                var places = ofOne
                    .Select(one => place.GetValueOrDefault(KeyOf(one.Exam), -1))
                    .Where(at => at >= 0)
                    .ToList();
                return places.Zip(places.Skip(1)).Count(pair => pair.First > pair.Second);
            });
        lock (gate)
        {
            return new StormResult(
                signed.Count,
                signed.Count(one =>
                    house.State(one.Exam) == OutboxState.Sent && copies.GetValueOrDefault(KeyOf(one.Exam)) == 1
                ),
                signed.Count(one => copies.GetValueOrDefault(KeyOf(one.Exam)) > 1),
                signed.Count(one => house.State(one.Exam) == OutboxState.Doubled),
                signed.Count(one => copies.GetValueOrDefault(KeyOf(one.Exam)) == 0),
                outOfOrder,
                server.Posts,
                new Dictionary<ServerFault, int>(happened)
            );
        }
    }

    private static string KeyOf(ExamId exam) => $"{exam}/1";

    private int Draw(int below)
    {
        lock (gate)
        {
            return chance.Next(below);
        }
    }

    private ServerFault Next()
    {
        lock (gate)
        {
            if (chance.Next(3) != 0)
            {
                return ServerFault.None;
            }

            var fault = Kinds[chance.Next(Kinds.Length)];
            happened[fault] = happened.GetValueOrDefault(fault) + 1;
            return fault;
        }
    }
}

/// <summary>What came of a storm, counted at the server and in the journal.</summary>
/// <param name="Records">How many records were signed.</param>
/// <param name="Sent">How many are noted as sent and are at the server exactly once.</param>
/// <param name="Doubled">How many are at the server more than once.</param>
/// <param name="Shown">How many are shown as doubled.</param>
/// <param name="Lost">How many are not at the server.</param>
/// <param name="OutOfOrder">How many came before an earlier one of the same patient.</param>
/// <param name="Posts">How many transactions were posted.</param>
/// <param name="Faults">How often each thing went wrong.</param>
public sealed record StormResult(
    int Records,
    int Sent,
    int Doubled,
    int Shown,
    int Lost,
    int OutOfOrder,
    int Posts,
    IReadOnlyDictionary<ServerFault, int> Faults
);
