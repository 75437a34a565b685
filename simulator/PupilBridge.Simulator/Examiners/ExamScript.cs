using PupilBridge.Instrument;

namespace PupilBridge.Simulator.Examiners;

/// <summary>
/// How the simulated examiner goes through an exam: sizes in bright and in dim light, shapes, direct responses (consensual
/// ones where the direct is poor or unequal), both swinging blocks, near response where light moves a pupil poorly, ready.
/// </summary>
internal sealed class ExamScript
{
    private static readonly TimeSpan BlockPatience = TimeSpan.FromSeconds(60);

    private readonly Sitting sitting;
    private readonly ScaleSetting scales;
    private readonly Chance chance;
    private readonly Dictionary<Eye, int> direct = [];

    public ExamScript(Sitting sitting)
    {
        this.sitting = sitting;
        chance = new Chance(sitting.Scenario.Seed, "examiner");
        scales = new ScaleSetting(
            sitting.Instrument,
            sitting.Millimetres,
            sitting.Scenario.Examiner.SettingScatterMillimetres,
            chance
        );
    }

    public IReadOnlyList<SettingTruth> Settings => scales.Settings;

    private ExaminerTraits Traits => sitting.Scenario.Examiner;

    public IEnumerable<ExaminerAct> Examine()
    {
        yield return Pause(2);
        foreach (var act in Sizes().Concat(Direct()).Concat(SwingShort()).Concat(SwingLong()).Concat(Near()))
        {
            yield return act;
        }

        yield return new ExaminerAct.Say(new SpokenJudgement.Ready());
        foreach (var act in Turn(InstrumentMode.Idle))
        {
            yield return act;
        }

        yield return Pause(1);
    }

    private IEnumerable<ExaminerAct> Sizes()
    {
        foreach (var act in Turn(InstrumentMode.Measure).Append(Pause(1)).Concat(BothEyes()))
        {
            yield return act;
        }

        if (Traits.RepeatsASetting)
        {
            foreach (var act in scales.Measure(Traits.FirstEye))
            {
                yield return act;
            }
        }

        foreach (var eye in new[] { Traits.FirstEye, Traits.FirstEye.Fellow() })
        {
            var shape = sitting.Scenario.Patient.Eyes[eye].Shape;
            yield return new ExaminerAct.Say(new SpokenJudgement.ShapeSeen(eye, shape));
        }

        sitting.Instrument.SetRoom(sitting.Scenario.DimLux);
        yield return new ExaminerAct.Wait(Traits.DarkWait);
        foreach (var act in BothEyes())
        {
            yield return act;
        }
    }

    private IEnumerable<ExaminerAct> BothEyes() =>
        scales.Measure(Traits.FirstEye).Concat(scales.Measure(Traits.FirstEye.Fellow()));

    private IEnumerable<ExaminerAct> Direct()
    {
        foreach (var act in Turn(InstrumentMode.Sequence))
        {
            yield return act;
        }

        foreach (var eye in new[] { Eye.Right, Eye.Left })
        {
            yield return Until(() => sitting.Watch.Count(Block.Direct, eye) >= 3);
            if (MeanNarrowing(eye, observed: eye) is { } narrowing)
            {
                direct[eye] = Spoken(GradingRule.Grade(narrowing));
                yield return new ExaminerAct.Say(new SpokenJudgement.LightGraded(eye, eye, direct[eye]));
            }
        }

        if (direct.Values.Any(g => g <= 1) || direct.Values.Distinct().Count() > 1)
        {
            foreach (var lit in new[] { Eye.Right, Eye.Left })
            {
                if (MeanNarrowing(lit, lit.Fellow()) is { } narrowing)
                {
                    var grade = Spoken(GradingRule.Grade(narrowing));
                    yield return new ExaminerAct.Say(new SpokenJudgement.LightGraded(lit, lit.Fellow(), grade));
                }
            }
        }
    }

    private IEnumerable<ExaminerAct> SwingShort()
    {
        yield return Until(() => sitting.Watch.Count(Block.SwingShort, Eye.Left) >= 4);
        if (Traits.RepeatsSwingShort)
        {
            foreach (var act in Turn(InstrumentMode.Hold, Block.SwingShort))
            {
                yield return act;
            }

            yield return Until(() => sitting.Watch.Count(Block.SwingShort, Eye.Left) >= 8);
            foreach (var act in Turn(InstrumentMode.Sequence))
            {
                yield return act;
            }
        }

        foreach (var act in SayOutcome(Block.SwingShort))
        {
            yield return act;
        }
    }

    private IEnumerable<ExaminerAct> SwingLong()
    {
        yield return Until(() => sitting.Watch.Count(Block.SwingLong, Eye.Left) >= 4);
        foreach (var act in SayOutcome(Block.SwingLong))
        {
            yield return act;
        }
    }

    // The first of four alternations is not judged.
    private IEnumerable<ExaminerAct> SayOutcome(Block block)
    {
        var right = sitting.Watch.LastOf(block, Eye.Right, 3);
        var left = sitting.Watch.LastOf(block, Eye.Left, 3);
        if (right.Count < 3 || left.Count < 3)
        {
            yield break;
        }

        var widening = new PerEye<double>
        {
            Right = right.Average(s => s.Pupils[Watched(Eye.Right)].NetWidening),
            Left = left.Average(s => s.Pupils[Watched(Eye.Left)].NetWidening),
        };
        yield return new ExaminerAct.Say(new SpokenJudgement.SwingSeen(block, GradingRule.Affected(widening)));
    }

    // With one pupil that light does not move, the other is watched whichever eye is lit.
    private Eye Watched(Eye lit) =>
        direct.GetValueOrDefault(lit, 4) == 0 && direct.GetValueOrDefault(lit.Fellow(), 4) > 0 ? lit.Fellow() : lit;

    private IEnumerable<ExaminerAct> Near()
    {
        if (!direct.Values.Any(g => g <= 1))
        {
            yield break;
        }

        if (sitting.Instrument.Model.Sequence.Contains(Block.Near))
        {
            yield return Until(() => sitting.Instrument.Block == Block.Near);
        }
        else
        {
            foreach (var act in Turn(InstrumentMode.Hold, Block.Near))
            {
                yield return act;
            }
        }

        yield return Pause(3);
        var before = new PerEye<double>
        {
            Right = sitting.Millimetres(Eye.Right),
            Left = sitting.Millimetres(Eye.Left),
        };
        sitting.Instrument.Fixate(near: true);
        yield return Pause(4);
        foreach (var eye in new[] { Eye.Right, Eye.Left })
        {
            var narrowing = Math.Max(0, (before[eye] - sitting.Millimetres(eye)) / before[eye]);
            yield return new ExaminerAct.Say(new SpokenJudgement.NearGraded(eye, Spoken(GradingRule.Grade(narrowing))));
        }

        sitting.Instrument.Fixate(near: false);
        yield return Pause(1);
    }

    private IEnumerable<ExaminerAct> Turn(InstrumentMode mode, Block block = Block.None)
    {
        if (sitting.Instrument.Model.Stop(mode, block) is { } stop)
        {
            sitting.Instrument.TurnDialTo(stop);
            yield return Until(() => !sitting.Instrument.IsDialTurning);
        }
    }

    private double? MeanNarrowing(Eye lit, Eye observed)
    {
        var stimuli = sitting.Watch.LastOf(Block.Direct, lit, 3);
        return stimuli.Count == 0 ? null : stimuli.Average(s => s.Pupils[observed].RelativeNarrowing);
    }

    private int Spoken(int grade) =>
        chance.Happens(Traits.SlipProbability) ? Math.Clamp(grade + (chance.Happens(0.5) ? 1 : -1), 0, 4) : grade;

    private static ExaminerAct.Until Until(Func<bool> isSo) => new(isSo, BlockPatience);

    private static ExaminerAct.Wait Pause(double seconds) => new(TimeSpan.FromSeconds(seconds));
}
