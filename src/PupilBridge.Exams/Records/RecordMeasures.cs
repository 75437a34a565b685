using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Exams.Diameters;
using PupilBridge.Exams.Profiles;
using PupilBridge.Exams.Values;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Records;

/// <summary>What the instrument measured, as a record has it.</summary>
internal static class RecordMeasures
{
    public static ValueList<RecordSize> Sizes(Exam exam, PerEye<ICorrection>? corrections) =>
        [.. exam.Captures.Select(capture => Of(exam, capture, corrections))];

    public static ValueList<RecordRefusedPairs> RefusedPairs(Exam exam) =>
        [
            .. exam
                .RefusedPairs.GroupBy(p => (p.Eye, p.Reason))
                .Select(alike => new RecordRefusedPairs(
                    RecordWords.Of(alike.Key.Eye),
                    RecordWords.Of(alike.Key.Reason),
                    [.. alike.Select(p => p.RefusedBy.Value)]
                )),
        ];

    public static ValueList<RecordRun> Runs(Exam exam) => [.. BlockRuns.Of(exam).Select(run => Of(exam, run))];

    public static ValueList<RecordTrain> Trains(Exam exam) =>
        [
            .. exam
                .Stimuli.GroupBy(s => (s.Block, s.Run, s.Eye))
                .Select(train => new RecordTrain(
                    RecordWords.OfBlock(train.Key.Block),
                    train.Key.Run,
                    RecordWords.Of(train.Key.Eye),
                    [.. train.Select(s => s.On.MillisecondsSince(exam.Opening.When))],
                    [.. train.Select(s => s.DwellMilliseconds)]
                )),
        ];

    private static RecordSize Of(Exam exam, Capture capture, PerEye<ICorrection>? corrections)
    {
        var diameter = PupilSizes.Measure(
            exam,
            capture,
            (corrections ?? exam.Corrections)?[capture.Eye] ?? Correction.None
        );
        var counting = capture.Light is { } light ? PupilSizes.Of(exam, capture.Eye, light)?.Capture : null;
        return new()
        {
            Eye = RecordWords.Of(capture.Eye),
            Light = RecordWords.OfMaybe(capture.Light),
            Counts = counting == capture,
            DiameterMicrometres = RecordWords.Micrometres(diameter.Millimetres),
            ExpandedUncertaintyMicrometres = RecordWords.Micrometres(diameter.ExpandedUncertaintyMillimetres),
            IsCalibrated = diameter.IsCalibrated,
            RawMicrometres = capture.Raw.Value,
            ResolutionMicrometres = capture.Resolution.Value,
            Manner = RecordWords.Of(capture.Manner),
            Nasal = Of(capture.Nasal),
            Temporal = Of(capture.Temporal),
            CompletedBy = capture.CompletedBy.Value,
            Fixation = RecordWords.OfMaybe(capture.Fixation),
            Millilux = capture.Millilux,
            DarkMilliseconds = capture.DarkMilliseconds,
            IsDoubtful = EyeEffects.OnSize(exam, capture.Eye),
        };
    }

    private static RecordEdge Of(EdgeReading edge) =>
        new(edge.Position.Value, RecordWords.Of(edge.When.At), edge.When.Sequence.Value);

    private static RecordRun Of(Exam exam, BlockRun run)
    {
        Stimulus[] all = [.. exam.Stimuli.Where(s => s.Block == run.Block && s.Run == run.Number)];
        Stimulus[] complete = [.. all.Where(s => s.End == StimulusEnd.Complete)];
        return new()
        {
            Block = RecordWords.Of(run.Block),
            Run = run.Number,
            Right = run.Right,
            Left = run.Left,
            Alternations = run.Alternations,
            HasReachedCount = run.HasReachedCount,
            IsTimely = run.IsTimely,
            WasInterrupted = run.WasInterrupted,
            WantedDwellMilliseconds = Wanted(exam.Profile, run.Block),
            ShortestDwellMilliseconds = complete.Min(s => s.DwellMilliseconds),
            LongestDwellMilliseconds = complete.Max(s => s.DwellMilliseconds),
            ShortestGapMilliseconds = complete.Min(s => s.GapMilliseconds),
            LongestGapMilliseconds = complete.Max(s => s.GapMilliseconds),
            NotComplete = all.Length - complete.Length,
            First = run.First.Value,
            Last = run.Last.Value,
        };
    }

    private static int Wanted(Profile profile, Block block) =>
        block switch
        {
            Block.SwingShort => profile.SwingShort.DwellMilliseconds,
            Block.SwingLong => profile.SwingLong.DwellMilliseconds,
            _ => profile.Direct.DwellMilliseconds,
        };
}
