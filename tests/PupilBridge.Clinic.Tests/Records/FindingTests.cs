using PupilBridge.Clinic.Entries;
using PupilBridge.Clinic.Findings;
using PupilBridge.Clinic.Views;
using PupilBridge.Exams.Criteria;
using PupilBridge.Exams.Records;

namespace PupilBridge.Clinic.Tests.Records;

public sealed class FindingTests : IDisposable
{
    private static readonly CriteriaSettings Measured = new()
    {
        Site = new SiteFacts { Bright = new(100, 2_827, 2) },
        Limits = CriteriaLimits.Default with { ClinicalAnisocoria = new(500) },
    };

    private readonly Support.Clinic clinic = new();

    [Fact]
    public async Task What_is_met_comes_first_with_its_numbers_and_leads_to_the_readings_behind_it()
    {
        var exam = await clinic.ReadyExamAsync(right: 5_000, left: 4_000);

        var findings = (await clinic.RecordAsync(exam)).Exam.Findings;

        var first = findings[0];
        Assert.Equal(
            ("anisocoria-descriptive", "met", "OD", "bright"),
            (first.Criterion, first.Verdict, first.Eye, first.Light)
        );
        // 1.0 mm; 2·√(2·(0.1² + r²/6)) = 0.283 with r = 0.01 mm.
        Assert.Equal((1.0m, 0.283m, 0.4m, "mm"), (first.Value, first.ExpandedUncertainty, first.Limit, first.Unit));
        Assert.Equal(
            (await clinic.RecordAsync(exam)).Exam.Sizes.Where(s => s.Light == "bright").Select(s => s.Sequence).Order(),
            first.Raw.Select(raw => raw.Sequence).Order()
        );
        Assert.Equal("Follow local policy; a licensed practitioner decides.", first.Cautions[^1]);
        string[] order = ["met", "cannot-tell", "not-met", "not-examined"];
        Assert.Equal(
            findings.Select(f => f.Verdict).OrderBy(v => Array.IndexOf(order, v)),
            findings.Select(f => f.Verdict)
        );
    }

    [Fact]
    public async Task The_visit_before_is_compared_with_and_named()
    {
        await clinic.ReadyExamAsync(right: 4_000);
        clinic.House.WriteLog();
        var exam = await clinic.ReadyExamAsync(right: 5_000);

        var changed = Find(await clinic.RecordAsync(exam), "size-changed", "OD", "bright");

        Assert.Equal(("met", 1.0m), (changed.Verdict, changed.Value));
        Assert.Contains("since the last visit of 2026-03-02", changed.Sentence, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Age_and_the_light_of_the_site_are_read_where_they_are_known()
    {
        clinic.House.Criteria = Measured;
        await clinic.CountsAsync(clinic.Patient("Q-1001", null, new DateOnly(1981, 3, 3)));
        var exam = await clinic.ReadyExamAsync();

        var record = await clinic.RecordAsync(exam);

        Assert.Equal("not-met", Find(record, "size-beyond-age-and-light", "OD", "bright").Verdict);
        Assert.Equal("no-luminance", Find(record, "size-beyond-age-and-light", "OD", "dim").Reason);
        clinic.House.Criteria = CriteriaSettings.Default;
        Assert.Equal(
            "no-luminance",
            Find(await clinic.RecordAsync(exam), "size-beyond-age-and-light", "OD", "bright").Reason
        );
    }

    [Fact]
    public async Task A_limit_that_the_clinic_set_is_the_one_in_use()
    {
        clinic.House.Criteria = Measured;
        var exam = await clinic.ReadyExamAsync(right: 5_000, left: 4_000);
        var clinical = Find(await clinic.RecordAsync(exam), "anisocoria-clinical", "OD", "bright");
        Assert.Equal(("met", 0.5m), (clinical.Verdict, clinical.Limit));
    }

    [Fact]
    public async Task What_was_signed_is_shown_as_signed_whatever_is_set_later()
    {
        var exam = await clinic.ReadyExamAsync(right: 5_000, left: 4_000);
        var seen = await clinic.RecordAsync(exam);
        await clinic.CountsAsync(clinic.Signature(exam, seen.DraftDigest));
        clinic.House.Criteria = Measured;

        var after = await clinic.RecordAsync(exam);

        var signed = SignedRecordText.Read(after.SignedVersions[0].Record);
        Assert.Equal(signed.Findings.Count, after.Exam.Findings.Count);
        Assert.Equal(seen.Exam.Findings.Select(f => f.Sentence), after.Exam.Findings.Select(f => f.Sentence));
        Assert.Equal(1.0m, after.Exam.Findings.First(f => f.Criterion == "anisocoria-clinical").Limit);
    }

    [Fact]
    public async Task Exams_are_found_by_a_criterion_that_is_met()
    {
        var unequal = await clinic.ReadyExamAsync(right: 5_000, left: 4_000);
        await clinic.ReadyExamAsync("Q-1002");
        clinic.House.WriteLog();

        var page = await clinic.Records.SearchExamsAsync(
            new ExamSearch { Finding = "anisocoria-descriptive" },
            default
        );

        Assert.Equal(unequal, Assert.Single(page.Exams).Summary.Exam);
    }

    [Theory]
    [InlineData("2026-03-04")]
    [InlineData("1896-03-01")]
    public async Task An_impossible_date_of_birth_is_refused(string born)
    {
        // The second one is 130 years and one day before; it is still possible, and one year earlier is not.
        var date = DateOnly.ParseExact(born, "yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture);
        if (date.Year < 2000)
        {
            await clinic.CountsAsync(clinic.Patient("Q-1003", null, date));
            date = date.AddYears(-1);
        }

        var refused = Assert.IsType<EntryOutcome.Refused>(
            await clinic.EnterAsync(clinic.Patient("Q-1004", null, date))
        );
        Assert.Contains("cannot be a date of birth", refused.Reason, StringComparison.Ordinal);
    }

    private static FindingView Find(RecordView record, string criterion, string eye, string light) =>
        record.Exam.Findings.Single(f =>
            f.Criterion == criterion && f.Light == light && (f.Eye is null || f.Eye == eye)
        );

    public void Dispose() => clinic.Dispose();
}
