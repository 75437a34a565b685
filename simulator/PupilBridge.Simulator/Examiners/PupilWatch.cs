using PupilBridge.Instrument;
using PupilBridge.Simulator.Eyes;

namespace PupilBridge.Simulator.Examiners;

/// <summary>One stimulus as the examiner watched it.</summary>
/// <param name="Block">The block.</param>
/// <param name="Lit">The eye that was lit.</param>
/// <param name="Lasted">For how long.</param>
/// <param name="Pupils">What each pupil did.</param>
public sealed record WatchedStimulus(Block Block, Eye Lit, TimeSpan Lasted, PerEye<PupilCourse> Pupils);

/// <summary>Watches the pupils through all stimuli.</summary>
internal sealed class PupilWatch
{
    private readonly List<WatchedStimulus> stimuli = [];
    private Eye? lit;
    private Block block;
    private PerEye<PupilCourse>? courses;
    private TimeSpan lasted;

    public IReadOnlyList<WatchedStimulus> Stimuli => stimuli;

    /// <summary>Looks once; to be called at every step.</summary>
    public void Look(SimulatedEyes eyes, Block nowBlock, Eye? nowLit)
    {
        if (nowLit != lit)
        {
            Close();
            lit = nowLit;
            block = nowBlock;
            lasted = TimeSpan.Zero;
            courses = nowLit is null ? null : Each(eye => Begin(eyes.Millimetres(eye)));
            return;
        }

        lasted += SimulatedEyes.Step;
        courses = courses?.Select((eye, course) => Go(course, eyes.Millimetres(eye)));
    }

    /// <summary>How many stimuli of a block were seen in an eye.</summary>
    public int Count(Block wanted, Eye eye) => stimuli.Count(s => s.Block == wanted && s.Lit == eye);

    /// <summary>The last whole stimuli of a block in an eye, at most so many; one that was broken off is none.</summary>
    public IReadOnlyList<WatchedStimulus> LastOf(Block wanted, Eye eye, int count)
    {
        var all = stimuli.Where(s => s.Block == wanted && s.Lit == eye).ToArray();
        var whole = all.Length == 0 ? TimeSpan.Zero : all.Max(s => s.Lasted) * 0.9;
        return [.. all.Where(s => s.Lasted >= whole).TakeLast(count)];
    }

    private void Close()
    {
        if (lit is { } eye && courses is not null)
        {
            stimuli.Add(new WatchedStimulus(block, eye, lasted, courses));
        }
    }

    private static PupilCourse Begin(double size) => new(size, size, size);

    private static PupilCourse Go(PupilCourse course, double size) =>
        course with
        {
            Smallest = Math.Min(course.Smallest, size),
            End = size,
        };

    private static PerEye<PupilCourse> Each(Func<Eye, PupilCourse> of) =>
        new() { Right = of(Eye.Right), Left = of(Eye.Left) };
}
