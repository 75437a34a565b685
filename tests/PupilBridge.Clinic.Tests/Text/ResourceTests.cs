using System.Text.RegularExpressions;
using PupilBridge.Clinic.DayLists;
using PupilBridge.Clinic.Text;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Judgements;
using PupilBridge.Exams.Profiles;
using PupilBridge.Instrument;
using PupilBridge.Worker;

namespace PupilBridge.Clinic.Tests.Text;

/// <summary>Every key that the code asks for exists, every key there is is asked for, and no words stand in the code.</summary>
public sealed partial class ResourceTests
{
    /// <summary>Folders whose words for people all stand in resource files.</summary>
    private static readonly string[] Wordless = ["DayLists", "Desk", "Lanes", "Live", "Merging", "Records", "Showing"];

    private static readonly Dictionary<string, HouseText> Files = new(StringComparer.Ordinal)
    {
        ["House"] = ClinicText.House,
        ["Lane"] = ClinicText.Lane,
        ["Showing"] = ClinicText.Showing,
        ["Records"] = ClinicText.Records,
        ["Desk"] = ClinicText.Desk,
        ["DayLists"] = ClinicText.DayLists,
    };

    /// <summary>The families of keys, with those values that are never asked for.</summary>
    private static readonly (string File, string Group, Type Family, string[] Without)[] Families =
    [
        ("House", "Eye", typeof(Eye), []),
        ("House", "Step", typeof(ExamStep), []),
        ("House", "StepWithin", typeof(ExamStep), []),
        ("House", "RoomLight", typeof(RoomLight), []),
        ("Lane", "Prompt", typeof(AskedFor), ["RunBlock"]),
        ("Lane", "Bench", typeof(PupilBridge.Exams.Bench.Runs.BenchRunKind), []),
        ("Lane", "RunBlock", typeof(Block), ["None", "Near"]),
        ("Lane", "PromptDetail", typeof(AskedFor), ["RunBlock", "Measure", "WhichConstrictsLess", "WhichLetsGo"]),
        ("Lane", "SwingDetail", typeof(Block), ["None", "Direct", "Near"]),
        ("Lane", "SwingRepeat", typeof(Block), ["None", "Direct", "Near"]),
        ("Lane", "Shape", typeof(PupilShape), []),
        ("Lane", "Swing", typeof(SwingFinding), ["RightWorse", "LeftWorse"]),
        ("Lane", "Ended", typeof(ClosingReason), []),
        ("Lane", "SwitchOff", typeof(SwitchOffResult), []),
        ("Showing", "Asked", typeof(AskedFor), []),
        ("Showing", "Reminder", typeof(ReminderKind), []),
        ("Showing", "Incident", typeof(IncidentKind), []),
        ("DayLists", "Column", typeof(DayListColumn), []),
        ("Desk", "Refusal", typeof(JudgementRefusal), []),
        ("Desk", "RefusalNext", typeof(JudgementRefusal), []),
        ("Desk", "Contradiction", typeof(ContradictionKind), ["Replaced"]),
        ("Desk", "Merge", typeof(PupilBridge.Clinic.Merging.MergingFault), []),
        ("Desk", "MergeNext", typeof(PupilBridge.Clinic.Merging.MergingFault), []),
        ("Desk", "Erase", typeof(PupilBridge.Clinic.Erasing.ErasureFault), []),
        ("Desk", "EraseNext", typeof(PupilBridge.Clinic.Erasing.ErasureFault), []),
        ("Records", "InLight", typeof(RoomLight), []),
        ("Records", "Bracket", typeof(Exams.Criteria.Grading.BracketAnswer), []),
        ("Records", "Course", typeof(CourseKind), ["Opened"]),
        ("Records", "RunDwell", typeof(TimingVerdict), ["NotJudged", "Within"]),
        ("Records", "RunGap", typeof(TimingVerdict), ["NotJudged", "Within"]),
        ("Records", "RunEnd", typeof(StimulusEnd), ["Complete"]),
    ];

    [Fact]
    public void Every_key_asked_for_exists_and_every_key_is_asked_for()
    {
        var asked = Sources("*.cs")
            .SelectMany(file => KeyUse().Matches(File.ReadAllText(file)))
            .Select(use => (File: use.Groups[1].Value, How: use.Groups[2].Value, Key: use.Groups[3].Value))
            .Where(use => Files.ContainsKey(use.File))
            .ToList();
        var keys = asked.Where(use => use.How is not ".Of(").Select(use => $"{use.File}/{use.Key}").ToHashSet();
        foreach (var group in asked.Where(use => use.How is ".Of(").Distinct())
        {
            var family = Assert.Single(Families, f => (f.File, f.Group) == (group.File, group.Key));
            keys.UnionWith(
                Enum.GetNames(family.Family).Except(family.Without).Select(name => $"{group.File}/{group.Key}.{name}")
            );
        }

        keys.UnionWith(asked.Where(use => use.How is ".Counted(").Select(use => $"{use.File}/{use.Key}.One"));
        var there = Files.SelectMany(file => file.Value.Keys.Select(key => $"{file.Key}/{key}")).ToHashSet();
        Assert.Empty(keys.Except(there));
        Assert.Empty(there.Except(keys));
        Assert.True(keys.Count > 100, "the search for keys finds too little to be right");
    }

    [Fact]
    public void No_words_for_people_stand_in_the_code()
    {
        var words = Wordless
            .SelectMany(folder => Sources("*.cs", folder))
            .SelectMany(file =>
                File.ReadLines(file)
                    .Where(line => !IsForDevelopers(line))
                    .SelectMany(line => Literal().Matches(line))
                    .Select(match => match.Groups[1].Value)
                    .Where(text => Sentence().IsMatch(text) && !IsTyped(text))
                    .Select(text => $"{Path.GetFileName(file)}: {text}")
            );

        Assert.Empty(words);
    }

    [Fact]
    public void Prompts_are_short_enough_for_large_letters()
    {
        var text = English("Lane");
        var (eye, fellow) = (English("House").Of("Eye", Eye.Right), English("House").Of("Eye", Eye.Left));
        var prompts = text
            .Keys.Where(key =>
                key.StartsWith("Prompt.", StringComparison.Ordinal)
                || key.StartsWith("RunBlock.", StringComparison.Ordinal)
            )
            .ToList();

        Assert.True(prompts.Count >= 15);
        Assert.All(prompts, key => Assert.InRange(text.Get(key, eye, fellow).Length, 1, 40));
    }

    private static HouseText English(string file) =>
        new(
            new System.Resources.ResourceManager($"PupilBridge.Clinic.Text.{file}", typeof(HouseText).Assembly),
            HouseLanguage.English
        );

    private static bool IsForDevelopers(string line) =>
        line.TrimStart().StartsWith("//", StringComparison.Ordinal)
        || line.Contains("throw new Argument", StringComparison.Ordinal);

    /// <summary>What people type, such as "swing short alike", is a language of its own, the same everywhere.</summary>
    private static bool IsTyped(string text) =>
        text.Split(' ')[0] is "shape" or "direct" or "consensual" or "near" or "swing";

    [GeneratedRegex("\"((?:[^\"\\\\]|\\\\.)*)\"")]
    private static partial Regex Literal();

    /// <summary>Two words of letters with a blank between them.</summary>
    [GeneratedRegex("[A-Za-z]{2,}[,.:;]? [A-Za-z{]")]
    private static partial Regex Sentence();

    [GeneratedRegex("ClinicText\\.(\\w+)\\s*(\\.Get\\(|\\.Of\\(|\\.Counted\\(|\\[)\\s*\"([^\"]+)\"")]
    private static partial Regex KeyUse();

    private static IEnumerable<string> Sources(string pattern, string folder = "")
    {
        var root = AppContext.BaseDirectory;
        while (!Directory.Exists(Path.Combine(root, "src", "PupilBridge.Clinic")))
        {
            root = Path.GetDirectoryName(root) ?? throw new InvalidOperationException("The source tree is not there.");
        }

        return Directory
            .EnumerateFiles(
                Path.Combine(root, "src", "PupilBridge.Clinic", folder),
                pattern,
                SearchOption.AllDirectories
            )
            .Where(file =>
                !file.Contains(
                    $"{Path.DirectorySeparatorChar}obj{Path.DirectorySeparatorChar}",
                    StringComparison.Ordinal
                )
            );
    }
}
