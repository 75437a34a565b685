using System.Globalization;
using System.Text;
using PupilBridge.Constructed.Scripts;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Criteria;
using PupilBridge.Exams.Criteria.Grading;
using PupilBridge.Exams.ExpectedSizes;

namespace PupilBridge.Constructed;

/// <summary>
/// One exam of docs/criteria.md: what differs from the first one, as words separated by semicolons, made into a script of events and
/// entries, and folded by the reducer like any other exam.
/// </summary>
public sealed class ConstructedExam
{
    private readonly Dictionary<string, string> words = new(StringComparer.Ordinal)
    {
        ["lux"] = "300",
        ["fix"] = "far",
        ["bright"] = "3.20/3.15",
        ["dim"] = "5.10/5.05",
        ["dim-fix"] = "far",
        ["lag"] = "-",
        ["dark"] = "40+0",
        ["status"] = "none/none",
        ["shape"] = "round/round",
        ["slow"] = "-",
        ["direct"] = "3/3",
        ["consensual"] = "-/-",
        ["short"] = "alike",
        ["long"] = "alike",
        ["long-dwell"] = "3000",
        ["again"] = "-",
        ["prolonged"] = "-",
        ["near"] = "-/-",
        ["near-light"] = "1",
        ["end"] = "ready",
        ["patient"] = "Q-1001",
        ["u"] = "100",
        ["age"] = "45",
        ["balance"] = "30",
        ["site-bright"] = "-",
        ["site-dim"] = "-",
        ["bell"] = "-",
        ["bracket"] = "-",
        ["earlier"] = "-",
    };

    private ConstructedExam(string done)
    {
        foreach (var item in done.Split(';', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries))
        {
            if (item == "nothing")
                continue;
            var (key, value) = (item.Split(' ')[0], item[(item.IndexOf(' ', StringComparison.Ordinal) + 1)..]);
            if (!words.ContainsKey(key))
                throw new ArgumentException($"No such word: {key}");
            words[key] = value;
        }
    }

    public static CriteriaInput Of(string done, Func<string, string>? mirror = null)
    {
        var made = new ConstructedExam(done);
        var exam = made.Fold(mirror, 0);
        return new()
        {
            Exam = exam,
            Earlier = made.Earlier(mirror),
            AgeYears = made.words["age"] == "-" ? null : Number(made.words["age"]),
            Site = new()
            {
                Bright = Field(made.words["site-bright"]),
                Dim = Field(made.words["site-dim"]),
                LampBalanceAgeDays = made.words["balance"] == "-" ? null : (int)Number(made.words["balance"]),
            },
            Bell = Bell(made.words["bell"]),
            Bracket = Bracket(made.words["bracket"]),
        };
    }

    private Exam Fold(Func<string, string>? mirror, long daysLater)
    {
        var script = Script(daysLater);
        var exam = Scripts.Script.Run(mirror is null ? script : mirror(script)).Exam;
        var captures = exam.Profile.Captures with { SettingRepeatability = new((int)Number(words["u"])) };
        return exam with { Profile = exam.Profile with { Captures = captures } };
    }

    // The exam itself is moved on by a day, so that the earlier one lies before it.
    private Exam[] Earlier(Func<string, string>? mirror)
    {
        if (words["earlier"] == "-")
            return [];
        var exam = new ConstructedExam(words["earlier"].Replace(',', ';')).Fold(mirror, -1);
        return [exam with { Id = new(exam.Id.Value + 1_000_000) }];
    }

    private string Script(long daysLater)
    {
        var text = new StringBuilder();
        void Do(string commands) => text.Append(commands).Append(";\n");
        Do($"+{(daysLater + 1) * 86_400_000}");
        Do($"meet A; start 1; lux {words["lux"]}");
        if (words["fix"] != "-")
            Do($"fix {words["fix"]}");
        Do($"open {words["patient"]}; +1000; mode measure; +500");
        Each("status", (eye, value) => Do($"status {eye} {value}"));
        Sizes(words["bright"], Do);
        DimSizes(Do);
        Each("shape", (eye, value) => Do($"shape {eye} {value}"));
        if (words["slow"] != "-")
            Do($"slow {words["slow"]}");
        Do("mode hold direct; +500; directs");
        Each("direct", (eye, value) => Do($"direct {eye} {value}"));
        Each("consensual", (eye, value) => Do($"consensual {eye} {value}"));
        Swinging(Do);
        if (words["near"] != "-/-")
        {
            Do($"lux {words["near-light"]}; mode hold near; fix near; +3000");
            Each("near", (eye, value) => Do($"near {eye} {value}"));
            Do("fix far");
        }

        Do("mode idle; +500");
        if (words["end"] != "-")
            Do(words["end"]);
        return text.ToString();
    }

    private void DimSizes(Action<string> run)
    {
        var (wait, between) = (words["dark"].Split('+')[0], words["dark"].Split('+')[1]);
        run("lux 1");
        if (words["dim-fix"] == "near")
            run("fix near");
        if (words["lag"] != "-")
        {
            // Right at 4 s, left at 6 s; right at 15 s, left at 17 s.
            run("+3000");
            Sizes(words["lag"].Split(' ')[0], run);
            run("+7000");
            Sizes(words["lag"].Split(' ')[1], run);
        }

        run($"+{wait}000");
        Sizes(words["dim"], run, between);
        if (words["dim-fix"] == "near")
            run("fix far");
    }

    private void Swinging(Action<string> run)
    {
        run("mode hold short; +500; swings 1000 4 R");
        if (words["short"] != "-")
            run($"swing short {words["short"]}");
        run($"mode hold long; +500; swings {words["long-dwell"]} 4 L");
        if (words["prolonged"] != "-")
        {
            var worse = words["prolonged"];
            // The chain ends with the right eye; it goes on with the better one where that is the left.
            run(worse == "R" ? "stim L 6000; stim R 3000" : "stim L 3000; stim R 6000; stim L 3000");
        }

        if (words["long"] != "-")
            run($"swing long {words["long"]}");
        if (words["again"] != "-")
            run($"mode idle; +3000; mode hold long; +500; swings 3000 4 L; swing long {words["again"]}");
    }

    private static void Sizes(string pair, Action<string> run, string secondsBetween = "0")
    {
        var (right, left) = (pair.Split('/')[0], pair.Split('/')[1]);
        if (right != "-")
            run($"pair R {Micrometres(right)}");
        run($"+{secondsBetween}000");
        if (left != "-")
            run($"pair L {Micrometres(left)}");
    }

    private void Each(string key, Action<string, string> run)
    {
        var pair = words[key].Split('/');
        if (pair[0] != "-")
            run("R", pair[0]);
        if (pair[1] != "-")
            run("L", pair[1]);
    }

    private static AdaptingField? Field(string text)
    {
        if (text == "-")
            return null;
        var parts = text.Split(' ');
        return new(Number(parts[0]), Number(parts[1]), (int)Number(parts[2]));
    }

    private static BellGrading? Bell(string text) =>
        text == "-" ? null : new(ScriptCommands.EyeOf(text), Enum.Parse<BellGrade>(text.Split(' ')[1]));

    private static DensityBracket? Bracket(string text)
    {
        if (text == "-")
            return null;
        var parts = text.Split(' ');
        var bracket = DensityBracket.Begin(ScriptCommands.EyeOf(parts[0]));
        return parts[1..].Aggregate(bracket, (b, answer) => b.Answer(Enum.Parse<BracketAnswer>(answer, true)));
    }

    private static string Micrometres(string millimetres) =>
        Math.Round(Number(millimetres) * 1000).ToString(CultureInfo.InvariantCulture);

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);
}
