using PupilBridge.Cohort.Examining;
using PupilBridge.Cohort.Population;
using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;
using PupilBridge.Simulator.Eyes;

namespace PupilBridge.Cohort.Truth;

/// <summary>
/// What is true of a person and of an exam, for every criterion, out of the simulated eyes and of what was truly done. It calls
/// no rule, no limit and no formula of the product; its limits are typed here again, from the sources that docs/criteria.md names.
/// </summary>
internal sealed partial class Oracle
{
    private const double Dust = 1e-9;
    private readonly Dictionary<Question, TrueAnswer> answers = [];
    private readonly Person person;
    private readonly DoneExam done;
    private readonly TrueEyes eyes;

    private Oracle(Person person, DoneExam done)
    {
        (this.person, this.done, eyes) = (person, done, new TrueEyes(person.Eyes));
        Sizes();
        Lag();
        Swings();
        Responses();
        Expectations();
        Changes();
        Quality();
    }

    public static IReadOnlyDictionary<Question, TrueAnswer> Of(Person person, DoneExam done) =>
        new Oracle(person, done).answers;

    private static int Lux(RoomLight light) => light == RoomLight.Bright ? Rooms.BrightLux : Rooms.DimLux;

    private void Say(string criterion, bool isPresent, Eye? named = null) =>
        answers[new(criterion)] = new(isPresent, isPresent ? named : null);

    private void Say(string criterion, Eye eye, bool isPresent) => answers[new(criterion, eye)] = new(isPresent);

    private static Eye Larger(double rightLessLeft) => rightLessLeft > 0 ? Eye.Right : Eye.Left;

    // 0.4 mm: Lam et al. 1987; 1.0 mm: textbook convention. That a pattern needs 0.2 mm to be one is ours: no number is published.
    private void Sizes()
    {
        var (bright, dim) = (eyes.Difference(Rooms.BrightLux), eyes.Difference(Rooms.DimLux));
        foreach (var (light, difference) in new[] { (RoomLight.Bright, bright), (RoomLight.Dim, dim) })
        {
            foreach (var (id, limit) in new[] { ("anisocoria-descriptive", 0.4), ("anisocoria-clinical", 1.0) })
            {
                var isPresent = Math.Abs(difference) > limit;
                answers[new(id, Light: light)] = new(isPresent, isPresent ? Larger(difference) : null);
            }
        }

        var sign = Math.Abs(dim) >= Math.Abs(bright) ? Math.Sign(dim) : Math.Sign(bright);
        var growth = sign * (dim - bright);
        var (inDim, inBright) = (growth > 0.2, growth < -0.2);
        Say("anisocoria-larger-in-dim", inDim, Larger(sign).Fellow());
        Say("anisocoria-larger-in-bright", inBright, Larger(sign));
        var isThere = Math.Max(Math.Abs(bright), Math.Abs(dim)) > 0.4;
        Say("anisocoria-alike", !inDim && !inBright && isThere, Larger(sign));
        var (trulyDim, trulyBright) = (
            eyes.Settled(person.LightsSwapped ? Rooms.BrightLux : Rooms.DimLux),
            eyes.Settled(person.LightsSwapped ? Rooms.DimLux : Rooms.BrightLux)
        );
        foreach (var eye in EyeFacts.Both)
            Say("dim-not-larger", eye, trulyDim[eye] < trulyBright[eye] - Dust);
    }

    // 0.4 mm between 5 s and 15 s: Crippa et al. 2007.
    private void Lag()
    {
        var (at5, at15) = eyes.AfterDarkening();
        var sign = at5 < 0 ? -1 : 1;
        Say("dilation-lag", sign * (at5 - at15) > 0.4, Larger(sign).Fellow());
        foreach (var eye in EyeFacts.Both)
            Say("slow-to-dilate", eye, person.Eyes.Eyes[eye].DilationTimes > 1);
    }

    // The least defect that filters in steps of 0.3 log units can show is one of 0.3.
    private void Swings()
    {
        var loss = person.Eyes.Eyes.Select((_, e) => e.AfferentLossLogUnits);
        var isDefect = Math.Abs(loss.Right - loss.Left) > 0.3 - Dust;
        var worse = Larger(loss.Right - loss.Left);
        foreach (var id in new[] { "rapd", "rapd-log-units", "rapd-bell-grade" })
            Say(id, isDefect, worse);
        foreach (var (id, block) in new[] { ("swinging-short", Block.SwingShort), ("swinging-long", Block.SwingLong) })
            answers[new(id, Block: block)] = new(isDefect, isDefect ? worse : null);
        var still = 0;
        foreach (var eye in EyeFacts.Both)
            still += IsStill(eye) ? 1 : 0;
        Say("rapd-one-pupil", isDefect && still == 1, worse);
    }

    // Not 3 % by light in either eye, which the examiners of the clinic call no response.
    private bool IsStill(Eye eye) => eyes.Narrowing(Eye.Right)[eye] < 0.03 && eyes.Narrowing(Eye.Left)[eye] < 0.03;

    // Less than 10 % is what the examiners of the clinic call 1 or less.
    private void Responses()
    {
        const double poor = 0.10;
        var lit = new PerEye<PerEye<double>> { Right = eyes.Narrowing(Eye.Right), Left = eyes.Narrowing(Eye.Left) };
        var near = eyes.NarrowingToNear();
        foreach (var eye in EyeFacts.Both)
        {
            var fellow = eye.Fellow();
            var (direct, toFellow, fromFellow) = (lit[eye][eye], lit[eye][fellow], lit[fellow][eye]);
            Say("direct-poor", eye, direct < poor);
            Say("afferent-pattern", eye, direct < poor && toFellow < poor && fromFellow >= poor);
            Say("efferent-pattern", eye, direct < poor && toFellow >= poor && fromFellow < poor);
            var excess = Looking.Continuous(near[eye]) - Looking.Continuous(direct);
            Say("light-near-dissociation", eye, direct < poor && excess >= 1);
            Say("shape-not-round", eye, person.Eyes.Eyes[eye].Shape != PupilShape.Round);
        }

        Say("near-due", lit.Right.Right < poor || lit.Left.Left < poor);
    }
}
