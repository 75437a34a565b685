using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Exams.Criteria;
using PupilBridge.Exams.Diameters;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Notation;
using PupilBridge.Exams.Values;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Records;

/// <summary>From an exam to the record that can be signed: a pure function, without a clock or chance.</summary>
public static class SignedRecords
{
    /// <summary>The record of an exam with nothing known beside it.</summary>
    /// <param name="exam">The exam.</param>
    /// <param name="programVersion">The version of the program that makes it.</param>
    /// <param name="corrections">The corrections of both scales; null for none.</param>
    /// <returns>The record.</returns>
    public static SignedRecord Of(Exam exam, string programVersion, PerEye<ICorrection>? corrections = null) =>
        Of(new CriteriaInput { Exam = exam, Corrections = corrections }, programVersion);

    /// <summary>The record of an exam as it stands: the next version to be signed.</summary>
    /// <param name="input">The exam, with what the criteria read beside it: earlier exams, site, age.</param>
    /// <param name="programVersion">The version of the program that makes it.</param>
    /// <returns>The record; it says nothing about who signs it or when.</returns>
    public static SignedRecord Of(CriteriaInput input, string programVersion)
    {
        ArgumentNullException.ThrowIfNull(input);
        ArgumentNullException.ThrowIfNull(programVersion);
        var (exam, corrections) = (input.Exam, input.Corrections);
        var before = exam.SignedVersions.Latest?.Record;
        return new()
        {
            Format = SignedRecord.FormatName,
            FormatVersion = SignedRecord.NewestFormat,
            Exam = exam.Id.Value,
            Version = exam.SignedVersions.Count + 1,
            PreviousDigest = before is null ? null : SignedRecordText.Digest(before),
            AmendmentReason = exam.Amendment?.Reason,
            Patient = exam.Patient?.Value,
            ProgramVersion = programVersion,
            Opened = Border(exam.Opening.When, exam.Opening.ByPerson, null),
            Closed = exam.Closing is { } end ? Border(end.When, null, RecordWords.Of(end.Reason)) : null,
            Journal = [.. exam.Entries.Select(r => new RecordRange(r.First.Value, r.Last.Value))],
            Instrument = OfInstrument(exam),
            Calibration = RecordCalibration.Of(exam),
            Lamps = RecordLamps.Of(exam),
            Profile = OfProfile(exam.Profile),
            Legend = new(exam.Profile.Legend.Version, exam.Profile.Legend.Grades),
            Steps = [.. ExamSteps.Of(exam).Select(OfStep)],
            Sizes = RecordMeasures.Sizes(exam, corrections),
            RefusedPairs = RecordMeasures.RefusedPairs(exam),
            Judgements = [.. exam.Judgements.Select(j => RecordJudging.Of(exam, j))],
            RefusedJudgements = [.. exam.RefusedJudgements.Select(RecordJudging.Of)],
            Swinging = RecordJudging.Swings(exam),
            Runs = RecordMeasures.Runs(exam),
            Trains = RecordMeasures.Trains(exam),
            EyeStatuses = [.. exam.EyeStatuses.Select(s => OfStatus(exam, s))],
            Notes = [.. exam.Notes.Where(n => n.WithdrawnBy is null).Select(OfNote)],
            Incidents = [.. exam.Incidents.GroupBy(i => (i.Kind, i.Detail)).Select(OfIncidents)],
            Course = [.. exam.Course.Select(OfCourse)],
            Findings = Findings(input),
            Chart = new(ChartText.OneLine(exam, corrections), [.. ChartText.Block(exam, corrections)]),
        };
    }

    /// <summary>What every criterion says of an exam now, as its record would have it.</summary>
    /// <param name="input">The exam, with what the criteria read beside it.</param>
    /// <returns>The findings, in the order in which they are listed.</returns>
    public static ValueList<RecordFinding> Findings(CriteriaInput input) => RecordCriteria.Of(input);

    private static RecordBorder Border(Moment when, PersonId? who, string? reason) =>
        new(RecordWords.Of(when.At), when.UncertaintyMilliseconds, when.Sequence.Value, who?.Value, reason);

    private static RecordInstrument OfInstrument(Exam exam) =>
        exam.Instrument is { } told
            ? new(
                exam.Serial.Value,
                told.Model,
                told.Firmware,
                told.Sequence.Value,
                OfScale(told.Scales.Right),
                OfScale(told.Scales.Left)
            )
            : new(exam.Serial.Value, null, null, null, null, null);

    private static RecordScale OfScale(ScaleDescription scale) =>
        new(scale.Home.Value, RecordWords.Of(scale.Direction), scale.Resolution.Value);

    private static RecordProfile OfProfile(Profiles.Profile profile) =>
        new(
            profile.Name,
            profile.Version,
            profile.Chart.EqualWithin.Value,
            profile.Chart.MinimumDirectGrade.ToString(),
            profile.Chart.MinimumNearGrade.ToString(),
            profile.Chart.NearDueAtMost.ToString(),
            profile.DwellTolerancePercent,
            profile.Captures.SettingRepeatability.Value,
            profile.Captures.SettingRepeatabilityIsMeasured,
            profile.Light.DarkSettledAfterMilliseconds
        );

    private static RecordStep OfStep(StepStatus step) =>
        new(
            RecordWords.Of(step.Step),
            RecordWords.Of(step.State),
            [.. step.Missing.Select(eye => RecordWords.Of(eye))]
        );

    private static RecordEyeStatus OfStatus(Exam exam, EyeStatusRecord status) =>
        new(
            RecordWords.Of(status.Eye),
            Words.Of(status.Conditions),
            status.Who.Value,
            RecordWords.Of(status.At),
            status.Sequence.Value,
            exam.EyeStatuses.LastOrDefault(s => s.Eye == status.Eye && s.WithdrawnBy is null) == status
        );

    private static RecordNote OfNote(NoteRecord note) =>
        new(note.Text, note.Who.Value, RecordWords.Of(note.At), note.Sequence.Value);

    private static RecordIncident OfIncidents(IGrouping<(IncidentKind Kind, string Detail), Incident> alike) =>
        new(
            RecordWords.Of(alike.Key.Kind),
            alike.Key.Detail,
            alike.Count(),
            RecordWords.Of(alike.First().When.At),
            RecordWords.Of(alike.Last().When.At),
            alike.First().When.Sequence.Value,
            alike.Last().When.Sequence.Value
        );

    private static RecordCourse OfCourse(CourseRecord done) =>
        new(
            RecordWords.Of(done.Kind),
            done.Who.Value,
            RecordWords.Of(done.At),
            done.Sequence.Value,
            done.Patient?.Value,
            done.OtherExam?.Value,
            done.Reason
        );
}
