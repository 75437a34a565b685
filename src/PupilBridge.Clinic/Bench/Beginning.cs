using PupilBridge.Clinic.Desk;
using PupilBridge.Clinic.Entries;
using PupilBridge.Clinic.House;
using PupilBridge.Clinic.Text;
using PupilBridge.Exams.Bench.Runs;
using PupilBridge.Exams.Calibration.Discs;
using PupilBridge.Exams.Calibration.Scale;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Statistics;

namespace PupilBridge.Clinic.Bench;

/// <summary>From a technician's wish to a run: discs, order and rule are settled before anything is measured.</summary>
internal static class Beginning
{
    /// <summary>Puts discs, plan and rule into a run's beginning.</summary>
    public static BenchRunBegun Compose(
        IClinicHouse house,
        BeginRunEntry given,
        BenchRunBegun begun,
        out EntryObstacle? obstacle
    )
    {
        obstacle = WhyNot(house, begun);
        if (obstacle is not null)
        {
            return begun;
        }

        var settings = house.Bench;
        var usual = begun.Kind switch
        {
            BenchRunKind.Calibration => settings.CalibrationRepeats,
            BenchRunKind.QuickCheck => settings.QuickCheckRepeats,
            BenchRunKind.LiveRepeatability => settings.LiveRepeats,
            _ => 1,
        };
        var repeats = given.Repeats ?? usual;
        if (repeats is < 1 or > BenchPlans.MostRepeats)
        {
            obstacle = Obstacle("Begin.Repeats", BenchPlans.MostRepeats, repeats);
            return begun;
        }

        switch (begun.Kind)
        {
            case BenchRunKind.StimulusTiming:
                return begun;
            case BenchRunKind.LiveRepeatability:
                return begun with { Plan = BenchPlans.Live(repeats) };
            default:
                obstacle = WithDiscs(house, given, begun, repeats, out var whole);
                return whole;
        }
    }

    private static EntryObstacle? WhyNot(IClinicHouse house, BenchRunBegun begun)
    {
        if (house.Book.Lane(begun.Serial) is not { } lane)
        {
            return Obstacle("Begin.NeverMet", begun.Serial);
        }

        if (lane.Identity is null)
        {
            return Obstacle("Begin.NoIdentity", begun.Serial);
        }

        if (house.Book.OpenRunOf(begun.Serial) is { } run)
        {
            return Obstacle("Begin.RunOpen", begun.Serial, run.Id);
        }

        // An exam that somebody is at must not be ended from the bench by mistake.
        return house.Book.OpenExamOf(begun.Serial) is { Opening.ByPerson: { } who } exam
            ? Obstacle("Begin.ExamOpen", begun.Serial, exam.Id, who)
            : null;
    }

    private static EntryObstacle? WithDiscs(
        IClinicHouse house,
        BeginRunEntry given,
        BenchRunBegun begun,
        int repeats,
        out BenchRunBegun whole
    )
    {
        whole = begun;
        if (!house.Book.DiscSets.TryGetValue(given.DiscSet ?? "", out var entered))
        {
            return Obstacle("Begin.NoSet", given.DiscSet ?? "", string.Join(", ", house.Book.DiscSets.Keys));
        }

        var day = DateOnly.FromDateTime(begun.At.ToDateTimeOffset().UtcDateTime);
        if (entered.Set.IsExpired(day))
        {
            return Obstacle("Begin.SetExpired", entered.Set.Name, Showing.Shown.Day(entered.Set.Expires!.Value));
        }

        var unknown = (given.Discs ?? []).Where(name => entered.Set.Find(name) is null).ToArray();
        if (unknown.Length > 0)
        {
            return Obstacle("Begin.NoDisc", string.Join(", ", unknown), entered.Set.Name);
        }

        var isCalibration = begun.Kind == BenchRunKind.Calibration;
        var chosen = isCalibration ? Several(entered.Set, given.Discs) : entered.Set;
        if (
            isCalibration
            && chosen.Discs.Select(disc => disc.DiameterMillimetres).Distinct().Count() < DiscSetCheck.FewestDiscs
        )
        {
            return Obstacle("Begin.FewDiscs", DiscSetCheck.FewestDiscs, chosen.Discs.Count);
        }

        if (isCalibration && repeats < ScaleReadings.FewestRepeats)
        {
            return Obstacle("Begin.FewRepeats", ScaleReadings.FewestRepeats);
        }

        try
        {
            var measured = isCalibration ? chosen : chosen with { Discs = [One(chosen, given.Discs)] };
            ScaleReadings.CheckRange(measured, ScaleTravel.Of(house.Book.Lane(begun.Serial)!.Identity!));
        }
        catch (StatisticsRefusedException refused)
        {
            return new EntryObstacle(refused.Message, ClinicText.Bench["Begin.RangeNext"]);
        }

        whole = begun with
        {
            DiscSet = chosen,
            Rule = house.Bench.Rule,
            Plan = isCalibration
                ? BenchPlans.Calibration(chosen, repeats, begun.Seed)
                : BenchPlans.QuickCheck(One(entered.Set, given.Discs).Name, repeats),
        };
        return null;
    }

    private static DiscSet Several(DiscSet set, IReadOnlyList<string>? names) =>
        names is { Count: > 0 } ? set with { Discs = set.Discs.Where(disc => names.Contains(disc.Name)) } : set;

    /// <summary>The disc named, else the one next to the middle of the range of pupils.</summary>
    private static Disc One(DiscSet set, IReadOnlyList<string>? names) =>
        names is { Count: > 0 }
            ? set.Find(names[0])!
            : set.Discs.MinBy(one => Math.Abs(one.DiameterMillimetres - BenchRunSummary.MiddleMillimetres))!;

    private static EntryObstacle Obstacle(string key, params object[] values) =>
        new(ClinicText.Bench.Get(key, values), ClinicText.Bench[$"{key}Next"]);
}
