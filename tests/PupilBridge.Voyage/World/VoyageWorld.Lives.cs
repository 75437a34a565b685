using PupilBridge.Journal;
using PupilBridge.Worker;
using PupilBridge.Worker.Erasing;
using PupilBridge.Worker.Options;

namespace PupilBridge.Voyage.World;

/// <content>The lives of the service: how one begins, and how it ends.</content>
internal sealed partial class VoyageWorld
{
    private JournalOptions Options =>
        new()
        {
            Folder = Folder,
            MaxSegmentBytes = plan.SegmentBytes,
            PreallocateBytes = plan.ZerosAhead,
            Writer = "pupilbridge voyage",
            WriterInstance = new Guid(++lives, 0, 0, new byte[8]),
            Time = Clock,
            // Where it is switched off for a life, segments of either kind follow each other.
            Encrypt = plan.Encrypted && encryption.Happens(0.85),
        };

    private BridgeParts Parts(JournalOptions options) =>
        new()
        {
            Options = new BridgeOptions
            {
                DataFolder = options.Folder.DataFolder,
                Sealing = plan.Sealed ? SealingChoice.Always : SealingChoice.Never,
            },
            Disk = KeysDisk,
            Keys = plan.Encrypted ? Protection.Ring : null,
            Encrypt = options.Encrypt,
            Time = Clock,
            SubjectKeyChance = keyChance,
        };

    private void Start()
    {
        try
        {
            Protection.GoOnChanging(Disk, Folder);
            var options = Options;
            service = new SteppedService(options, Parts(options), Disk, log, Clock, chance);
            foreach (var lane in Lanes)
            {
                lane.Side = new PortSide(service, lane.Port);
                lane.Wake();
            }

            startAt = null;
            // What has not struck by now strikes within this life.
            strikesAtStart = false;
            Counts.Starts++;
        }
        catch (Exception e) when (e is JournalException or BridgeStartException or IOException)
        {
            // The disk did not let it start; whoever keeps the service running tries again.
            Disk.EndProcess();
            startAt = Clock.Now + TimeSpan.FromSeconds(5);
            Counts.RefusedStarts++;
        }
    }

    private void StopInOrder()
    {
        if (service is not { } alive)
            return;
        foreach (var lane in Lanes)
            lane.Side?.Stop(alive.Present);
        NotePeaks(alive);
        alive.Stop();
        foreach (var clerk in clerks)
            clerk.StopService();
        Gone();
    }

    private void Gone()
    {
        foreach (var lane in Lanes)
            lane.LoseHost();
        foreach (var clerk in clerks)
            clerk.LoseService();
        service = null;
        Disk.EndProcess();
        startAt = Clock.Now + TimeSpan.FromSeconds(chance.NextBetween(1, 30));
    }

    private void NotePeaks(SteppedService alive)
    {
        Counts.MostWaiting = Math.Max(Counts.MostWaiting, alive.MostWaiting);
        Counts.MostUnwritten = Math.Max(Counts.MostUnwritten, alive.MostUnwritten);
        foreach (var lane in Lanes)
        {
            Counts.MostKept = Math.Max(Counts.MostKept, lane.MostKept);
            Counts.MostOutgoing = Math.Max(Counts.MostOutgoing, lane.Side?.MostOutgoing ?? 0);
            Counts.MostOfOnePort = Math.Max(Counts.MostOfOnePort, lane.Side?.MostWaiting ?? 0);
        }
    }

    /// <summary>The power fails once more when all is done: what was told stays told. Then the next day begins and ends in order.</summary>
    private void NextDay()
    {
        Disk.LosePower();
        Start();
        if (service is null)
            Problems.Add("the service does not start on the next day");
        for (var steps = 0; service is { NextDue: not null } && steps < 10_000; steps++)
            Step(withTroubles: false);
        StopInOrder();
    }
}
