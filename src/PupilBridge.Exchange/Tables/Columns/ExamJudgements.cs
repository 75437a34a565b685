using PupilBridge.Clinic.Outgoing;
using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Exams.Judgements;
using PupilBridge.Exams.Records;

namespace PupilBridge.Exchange.Tables.Columns;

/// <summary>What people judged and counts. An empty cell was not examined, or was not said; it is never normal.</summary>
internal static class ExamJudgements
{
    private const string NotJudged = "empty: not examined";

    private static readonly string[] EyeWords = ["right", "left"];

    public static IReadOnlyList<Column<OutgoingRecord>> All { get; } =
    [
        .. OfBoth("shape", "shape", Vocabulary.Of<PupilShape>(), "Form of the pupil of {0}"),
        .. OfBoth("direct", "direct", Vocabulary.Grades, "Grade of the direct response of {0}"),
        .. OfBoth(
            "consensual",
            "consensual",
            Vocabulary.Grades,
            "Grade of the consensual response: the pupil of {0} watched, the other eye lit"
        ),
        .. OfBoth("near", "near", Vocabulary.Grades, "Grade of the near response of {0}"),
        .. OfBoth("slow_to_dilate", "slow-to-dilate", "seen", "Whether the pupil of {0} was seen slow to dilate"),
        new(
            "swinging",
            CellKind.Word,
            "",
            Vocabulary.Of<SwingState>(),
            "What the swinging-flashlight test adds up to over both dwells.",
            exam => Cell.Of(exam.Record.Swinging.State)
        ),
        new(
            "swinging_eye",
            CellKind.Word,
            "",
            Vocabulary.Eyes,
            "The eye of the relative afferent defect that was seen; empty if none was.",
            exam => Cell.Of(exam.Record.Swinging.Eye)
        ),
        .. OfDwell("swing-short", "short"),
        .. OfDwell("swing-long", "long"),
        .. OfStatus("right"),
        .. OfStatus("left"),
        new(
            "incidents",
            CellKind.Whole,
            "",
            Vocabulary.Counting,
            "How many things went wrong that the record tells of, gaps included.",
            exam => Cell.Of(exam.Record.Incidents.Sum(incident => (long)incident.Count))
        ),
    ];

    private static IEnumerable<Column<OutgoingRecord>> OfBoth(
        string name,
        string judged,
        string range,
        string meaning
    ) =>
        EyeWords.Select(eye => new Column<OutgoingRecord>(
            $"{eye}_{name}",
            CellKind.Word,
            "",
            range,
            $"{string.Format(System.Globalization.CultureInfo.InvariantCulture, meaning, Side(eye))}; {NotJudged}.",
            exam => Cell.Of(Find(exam, judged, eye)?.Answer)
        ));

    private static IEnumerable<Column<OutgoingRecord>> OfDwell(string dwell, string name)
    {
        yield return new(
            $"swinging_{name}",
            CellKind.Word,
            "",
            Vocabulary.Of<SwingFinding>(),
            $"What the {name} dwell showed; the eye named is the one that was lit; {NotJudged}.",
            exam => Cell.Of(Dwell(exam, dwell)?.Finding)
        );
        yield return new(
            $"swinging_{name}_timely",
            CellKind.YesNo,
            "",
            "true, false",
            $"Whether the alternations of the {name} dwell were complete and surely timely; empty if it was not judged.",
            exam => Cell.Of(Dwell(exam, dwell) is { Finding: not null } read ? read.IsTimely : (bool?)null)
        );
    }

    private static IEnumerable<Column<OutgoingRecord>> OfStatus(string eye)
    {
        yield return new(
            $"{eye}_status",
            CellKind.Text,
            "",
            "text",
            $"What holds of {Side(eye)} before the test, in the chart's words, such as drops or a prosthesis; empty if nobody said.",
            exam => Cell.Of(exam.Record.EyeStatuses.LastOrDefault(s => s.Eye == eye && s.Counts)?.Conditions)
        );
    }

    private static string Side(string eye) => eye == "right" ? "OD (right)" : "OS (left)";

    private static RecordJudgement? Find(OutgoingRecord exam, string judged, string eye)
    {
        foreach (var judgement in exam.Record.Judgements)
        {
            if (judgement.Counts && judgement.Judged == judged && judgement.Eye == eye)
            {
                return judgement;
            }
        }

        return null;
    }

    private static RecordDwell? Dwell(OutgoingRecord exam, string dwell) =>
        exam.Record.Swinging.Dwells.FirstOrDefault(read => read.Dwell == dwell);
}
