using PupilBridge.Cohort.Examining;
using PupilBridge.Cohort.Population;
using PupilBridge.Cohort.Results;
using PupilBridge.Cohort.Truth;
using PupilBridge.Exams.Criteria;
using PupilBridge.Exams.ExpectedSizes;
using PupilBridge.Simulator.Eyes;

namespace PupilBridge.Cohort;

/// <summary>A simulated clinic: people with known truth, examined by people who scatter, judged by the criteria.</summary>
public sealed class CohortRun
{
    private readonly SortedDictionary<string, Tally> tallies = new(StringComparer.Ordinal);

    private CohortRun() { }

    /// <summary>Every criterion against the truth, by its id.</summary>
    public IReadOnlyDictionary<string, Tally> Tallies => tallies;

    /// <summary>Brackets that gave a density, and how many of them are within one step of 0.3 of the true one (from 1.8 on, the strongest filter: at least 1.5).</summary>
    public WilsonInterval BracketsWithinOneStep { get; private set; }

    /// <summary>Grades of Bell's scale that were found, and how many are the true one.</summary>
    public WilsonInterval BellGradesRight { get; private set; }

    /// <summary>Examines a clinic.</summary>
    /// <param name="seed">Seed; the same gives the same counts, on any machine and any number of threads.</param>
    /// <param name="people">How many people.</param>
    /// <param name="scatter">How the examiners scatter.</param>
    /// <param name="rates">How often each sign is drawn; null for the defaults.</param>
    /// <returns>The counts.</returns>
    public static CohortRun Of(long seed, int people, HumanScatter scatter, Prevalences? rates = null)
    {
        var run = new CohortRun();
        var seen = new (
            CriteriaInput Input,
            Person Person,
            DoneExam Done,
            IReadOnlyDictionary<Question, TrueAnswer> Truth
        )[people];
        Parallel.For(
            0,
            people,
            number =>
            {
                var person = PersonDraw.Draw(rates ?? new(), seed, number);
                var done = Examiner.Examine(person, scatter);
                var before = Examiner.ExamineBefore(person, scatter);
                seen[number] = (Input(person, done, before), person, done, Oracle.Of(person, done));
            }
        );
        foreach (var (input, person, done, truth) in seen)
            run.Add(person, done, Findings.Of(input), truth);
        return run;
    }

    /// <summary>What the criteria read of one person of the clinic, for measuring how long they take.</summary>
    /// <param name="seed">Seed of the cohort.</param>
    /// <param name="number">Which person, from 0.</param>
    /// <returns>The input.</returns>
    public static CriteriaInput InputOf(long seed, int number)
    {
        var person = PersonDraw.Draw(new(), seed, number);
        return Input(
            person,
            Examiner.Examine(person, HumanScatter.Usual),
            Examiner.ExamineBefore(person, HumanScatter.Usual)
        );
    }

    private static CriteriaInput Input(Person person, DoneExam done, DoneExam? before) =>
        new()
        {
            Exam = done.Exam,
            Earlier = before is null ? [] : [before.Exam],
            AgeYears = person.Eyes.AgeYears,
            Bracket = done.Bracket,
            Bell = done.Bell,
            Site = new()
            {
                Bright = person.LuminanceMeasured ? Field(Rooms.BrightLux) : null,
                Dim = person.LuminanceMeasured ? Field(Rooms.DimLux) : null,
                LampBalanceAgeDays = person.LampCheckKnown ? person.LampCheckDays : null,
            },
        };

    private static AdaptingField Field(int lux)
    {
        var field = Lighting.Room(lux);
        return new(field.Luminance, field.AreaSquareDegrees, 2);
    }

    private void Add(
        Person person,
        DoneExam done,
        IEnumerable<Finding> findings,
        IReadOnlyDictionary<Question, TrueAnswer> truth
    )
    {
        foreach (var finding in findings)
        {
            // A criterion that asks about one eye is keyed by it; one that names an eye is not.
            var named = new Question(finding.Criterion, null, finding.Light, finding.Block);
            if (!truth.TryGetValue(named, out var answer))
                answer = truth[named with { Eye = finding.Eye }];
            if (!tallies.TryGetValue(finding.Criterion, out var tally))
                tallies[finding.Criterion] = tally = new();
            tally.Add(finding, answer);
            if (finding.Verdict == CriterionVerdict.Met)
                Grades(person, done, finding);
        }
    }

    private void Grades(Person person, DoneExam done, Finding finding)
    {
        if (finding.Eye is not { } eye)
            return;
        var (worse, better) = (person.Eyes.Eyes[eye], person.Eyes.Eyes[Instrument.EyeFacts.Fellow(eye)]);
        var loss = worse.AfferentLossLogUnits - better.AfferentLossLogUnits;
        if (finding is { Criterion: "rapd-log-units", Value: { } told })
        {
            var isNear = told >= 1.8 ? loss >= 1.5 - 1e-9 : Math.Abs(told - loss) <= 0.3 + 1e-9;
            BracketsWithinOneStep = new(BracketsWithinOneStep.Hits + (isNear ? 1 : 0), BracketsWithinOneStep.Of + 1);
        }
        else if (finding.Criterion == "rapd-bell-grade")
        {
            var isRight = done.Bell!.Grade == TrueGrade.Of(loss);
            BellGradesRight = new(BellGradesRight.Hits + (isRight ? 1 : 0), BellGradesRight.Of + 1);
        }
    }
}
