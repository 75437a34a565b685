using PupilBridge.ExamLog;
using PupilBridge.Instrument;
using PupilBridge.Journal;
using PupilBridge.SimulatedDisk;
using PupilBridge.Simulator;
using PupilBridge.Simulator.Devices;
using PupilBridge.Simulator.Faults;
using PupilBridge.Voyage.Model;
using PupilBridge.Voyage.People;
using PupilBridge.Voyage.Runs;

namespace PupilBridge.Voyage.World;

/// <summary>
/// The whole clinic in memory: instruments, people, the service in its lives, the machine with its disk and clocks. One thread,
/// one step after the other, each at the moment when something is due; what happens in between costs nothing.
/// </summary>
internal sealed partial class VoyageWorld : IDisposable
{
    private static readonly TimeSpan LongestVoyage = TimeSpan.FromHours(12);
    private static readonly TimeSpan TimeToSettle = TimeSpan.FromMinutes(20);
    private const int MostStepsAtOneMoment = 100_000;
    private readonly VoyagePlan plan;
    private readonly string examLogFolder;
    private readonly Chance chance;
    private readonly Chance encryption;
    private readonly Troubles troubles;
    private readonly Chance erasing;
    private readonly SeededKeys keyChance;
    private readonly ExamLogPart log;
    private readonly List<Examiner> examiners = [];
    private readonly List<DeskClerk> clerks = [];
    private SteppedService? service;
    private TimeSpan? startAt = TimeSpan.Zero;
    private int lives;
    private bool isOver;
    private int standing;

    public VoyageWorld(VoyagePlan plan, string examLogFolder)
    {
        this.plan = plan;
        this.examLogFolder = examLogFolder;
        chance = new Chance(plan.Seed, "world");
        troubles = new Troubles(plan);
        Disk = new FaultyDisk((int)(plan.Seed & int.MaxValue));
        Protection = new Protection(plan.Seed, Clock, examLogFolder);
        encryption = new Chance(plan.Seed, "encryption");
        log = new ExamLogPart(examLogFolder, Disk, Clock, plan.Encrypted ? Protection : null);
        erasing = new Chance(plan.Seed, "erasing");
        Orders = new ErasureOrders(new Chance(plan.Seed, "numbers"), StrikeErasure);
        keyChance = new SeededKeys(new Chance(plan.Seed, "subject keys"));
        KeysDisk = Disk;
        for (var i = 1; i <= plan.Instruments; i++)
            AddLane(i);
        Disk.FailAt = plan.FailAt;
        Disk.FailFor = plan.FailsOn ? int.MaxValue : 1;
    }

    public VirtualClock Clock { get; } = new();

    public FaultyDisk Disk { get; }

    /// <summary>The journal, with the master keys that are at hand now.</summary>
    public JournalFolder Folder => plan.Encrypted ? new("/quay") { Keys = Protection.Ring } : new("/quay");

    public Protection Protection { get; }

    /// <summary>The disk as it is shown to whoever keeps the keys of patients; tests of the model spoil it.</summary>
    public IJournalDisk KeysDisk { get; set; }

    /// <summary>What was ordered to be erased.</summary>
    public ErasureOrders Orders { get; }

    /// <summary>How the exam log is opened now.</summary>
    public ExamLogOptions ExamLogOptions => log.Options;

    public List<Lane> Lanes { get; } = [];

    public ToldPeople People { get; } = new();

    public ToldInstruments Instruments { get; } = new();

    public RunCounts Counts { get; } = new();

    /// <summary>Where bytes of old records were changed.</summary>
    public RottenPlaces Rotten { get; } = new();

    /// <summary>What went wrong that must not.</summary>
    public List<string> Problems { get; } = [];

    /// <summary>Sails: exams and troubles until all exams are done, then time to come to rest without trouble.</summary>
    public void Run()
    {
        while (!examiners.TrueForAll(e => e.IsDone) && Clock.Now < LongestVoyage)
            Step(withTroubles: true);
        EndTroubles();
        var until = Clock.Now + TimeToSettle;
        while (!IsAtRest && Clock.Now < until)
        {
            SwitchOnAgain();
            Step(withTroubles: false);
        }

        if (!IsAtRest)
            Problems.Add($"did not come to rest: {WhyNot()}");
        Count();
        StopInOrder();
        if (plan.Sealed)
            NextDay();
    }

    /// <summary>One step: to the moment when something is due, and whatever is due then.</summary>
    public void Step(bool withTroubles)
    {
        var due = NextDue(withTroubles);
        standing = due > Clock.Now ? 0 : standing + 1;
        if (standing > MostStepsAtOneMoment)
            throw new InvalidOperationException($"Time stands still at {Clock.Now}: {WhatIsDue()}");
        Clock.GoTo(due);
        Counts.Steps++;
        try
        {
            if (withTroubles)
                Befall();
            if (service is null && startAt <= Clock.Now)
                Start();
            for (var i = 0; i < Lanes.Count; i++)
            {
                var lane = Lanes[i];
                examiners[i].Step(Clock.Now);
                if (lane.NextDue > Clock.Now)
                    continue;
                lane.Step(Clock.Now, service);
                Instruments.Listen(lane.Instrument);
            }

            if (service is { } alive)
            {
                alive.Pump();
                foreach (var clerk in clerks)
                    clerk.Step(alive);
                foreach (var lane in Lanes)
                    lane.Collect();
            }
        }
        catch (ProcessDiedException)
        {
            Die();
        }
    }

    public void Dispose()
    {
        service?.Abandon();
        keyChance.Dispose();
        if (Directory.Exists(examLogFolder))
            Directory.Delete(examLogFolder, recursive: true);
    }

    /// <summary>
    /// Whoever comes next switches on an instrument that went off before it heard that all is on disk: what it says then tells the
    /// service that the boot before has ended.
    /// </summary>
    private void SwitchOnAgain()
    {
        foreach (var lane in Lanes)
        {
            if (lane.Instrument.Power != PowerState.Off || lane.Instrument.IsAllAcknowledged)
                continue;
            lane.Instrument.SwitchOn();
            lane.Wake();
        }
    }

    private bool IsAtRest =>
        service is { NextDue: null }
        && clerks.TrueForAll(c => c.IsIdle)
        && Lanes.TrueForAll(l => l.Instrument.IsAllAcknowledged && l.Instrument.Power != PowerState.GoingOff);

    private string WhyNot() =>
        service is null ? "the service does not start"
        : service.Trouble is { } trouble ? trouble
        : !clerks.TrueForAll(c => c.IsIdle) ? "entries of people are not answered"
        : string.Join(
            "; ",
            Lanes
                .Where(l => !l.Instrument.IsAllAcknowledged)
                .Select(l =>
                    $"{l.Serial} ({l.Instrument.Power}, {l.Instrument.Link.Phase}) keeps {l.Instrument.Link.KeptCount} events unacknowledged"
                )
        );

    private TimeSpan NextDue(bool withTroubles)
    {
        var due = Clock.Now + TimeSpan.FromMinutes(5);
        void At(TimeSpan? moment) => due = moment is { } time && time < due ? time : due;
        foreach (var lane in Lanes)
            At(lane.NextDue);
        foreach (var examiner in examiners)
            At(examiner.NextDue);
        At(service is null ? startAt : service.NextDue);
        if (service is not null)
        {
            foreach (var clerk in clerks)
                At(clerk.NextDue);
        }

        if (withTroubles)
        {
            At(troubles.NextDue);
            At(endings.Count == 0 ? null : endings.Min(e => e.At));
        }

        return due > Clock.Now ? due : Clock.Now;
    }

    private string WhatIsDue() =>
        string.Join("; ", Lanes.Zip(examiners).Select(l => $"{l.First.WhatIsDue}, examiner {l.Second.NextDue}"))
        + $"; service {service?.NextDue} of {service?.Keeper.Waiting} waiting, start {startAt}, troubles {troubles.NextDue}";

    private void AddLane(int number)
    {
        var model = (plan.Seed + number) % 2 == 0 ? InstrumentModels.QuayA : InstrumentModels.QuayB;
        var serial = new SerialNumber($"QA-05{number:00}");
        var faults =
            plan.LineFaults > 0 ? FaultSet.Create(["all"], (plan.Seed * 16) + number, plan.LineFaults) : FaultSet.None;
        var lane = new Lane($"quay-{number}", model, serial, (plan.Seed * 16) + number, faults);
        var clerk = new DeskClerk(
            lane,
            new Chance(plan.Seed, $"clerk {number}"),
            Clock,
            People,
            number % 2 == 0 ? "HV" : "MK",
            Orders,
            new Chance(plan.Seed, $"erasing {number}"),
            plan.Erasures
        );
        Lanes.Add(lane);
        clerks.Add(clerk);
        examiners.Add(new Examiner(lane, clerk, new Chance(plan.Seed, $"examiner {number}"), plan));
    }
}
