using PupilBridge.Clinic.Outgoing;
using PupilBridge.Clinic.Views;
using PupilBridge.Constructed.Scripts;
using PupilBridge.Exams.Criteria;
using PupilBridge.Exams.Diameters;
using PupilBridge.Exams.Records;
using PupilBridge.Exchange.Paper;
using PupilBridge.Exchange.Report;
using PupilBridge.Instrument;

namespace PupilBridge.Exchange.Tests.Report;

/// <summary>Exams of Quayside Occupational Health as they leave the house.</summary>
internal static class Samples
{
    private const string Begin =
        "start 1.0; meet A; +1767600000000; lux 300; fix far; open Q-1003; +1000; mode measure; +500;";
    private const string BrightAndDim =
        "pair R 3200; pair L 3150; lux 1; +40000; pair R 5100; pair L 5050; shape R round; shape L round;";
    private const string Direct = "mode hold direct; +500; directs; direct R 3; direct L 3;";
    private const string Swings =
        "mode hold short; +500; swings 1000 4 R; swing short alike; mode hold long; +500; swings 3000 4 L; swing long alike;";

    public static readonly string[] Names = ["normal", "abnormal", "incomplete", "uncalibrated", "amended", "draft"];

    public static ReportSetting Setting { get; } = new() { ClinicName = "Quayside Occupational Health" };

    /// <summary>One of <see cref="Names"/>.</summary>
    public static OutgoingRecord Of(string name) =>
        name switch
        {
            "normal" => Signed(Begin + BrightAndDim + Direct + Swings + "mode idle; ready", true),
            "abnormal" => Signed(
                Begin
                    + "status L none; pair R 3200; pair L 4600; lux 1; +40000; pair R 5100; pair L 5250;"
                    + "shape R round; shape L notround; mode hold direct; +500; directs; direct R 3; direct L 0.5;"
                    + "consensual R 3; consensual L 0.5; mode hold short; +500; swings 1000 4 R; swing short L;"
                    + "mode hold long; +500; swings 3000 4 L; swing long L; mode hold near; fix near; +3000; near R 3; near L 2;"
                    + "fix far; note \"lid a little lower on the left, the patient has no pain\"; mode idle; ready",
                true
            ),
            "incomplete" => Signed(
                Begin
                    + "pair R 3200; pair R 3250; gap 3; shape R round; mode hold direct; +500; stim R 1000; stim R 400; ready",
                true
            ),
            "uncalibrated" => Signed(Begin + BrightAndDim + Direct + Swings + "mode idle; ready", false),
            "amended" => Signed(
                Begin + BrightAndDim + Direct + "ready; sign 1 abc; amend wrong grade; direct L 2.5",
                true
            ),
            "draft" => Signed(Begin + BrightAndDim + Direct, true) with { Signature = null },
            _ => throw new ArgumentException(name),
        };

    /// <summary>Keeps a file for people to look at, in the folder that <c>PUPILBRIDGE_KEEP_PRINTS</c> names; without it nothing is kept.</summary>
    public static void Keep(string name, byte[] file)
    {
        if (Environment.GetEnvironmentVariable("PUPILBRIDGE_KEEP_PRINTS") is { Length: > 0 } folder)
            File.WriteAllBytes(Path.Combine(folder, name), file);
    }

    public static OutgoingRecord Signed(string script, bool isCalibrated)
    {
        var exam = Script.Run(script).Exam;
        var disc = new OffDiscs();
        var input = new CriteriaInput
        {
            Exam = exam,
            AgeYears = 45,
            Corrections = isCalibrated ? new PerEye<ICorrection> { Right = disc, Left = disc } : null,
        };
        var record = SignedRecords.Of(input, "0.1");
        var last = exam.LastActivity;
        return new()
        {
            Record = record,
            Signature = new(
                "CL",
                last.At.ToDateTimeOffset().AddMinutes(7),
                last.Sequence.Value + 1,
                SignedRecordText.Digest(SignedRecordText.Write(record)),
                IsLatest: true
            ),
            Patient = new PatientView("Q-1003", "Crane Driver Three", new DateOnly(1981, 5, 4)),
            IsSetAside = false,
            Head = new(last.Sequence.Value + 9, new string('a', 60) + "01ef"),
        };
    }

    public static ReportDocument Report(string name) => ReportComposer.Compose(Of(name), Setting);

    /// <summary>Everything that a report says, piece by piece.</summary>
    public static IEnumerable<string> Said(ReportDocument report) =>
        [
            report.Title,
            report.Running,
            .. report.Marks.SelectMany(m => new[] { m.Word, m.Words }),
            .. report.Sections.SelectMany(s => s.Parts.SelectMany(Said).Prepend(s.Title)),
            report.Caution,
        ];

    private static IEnumerable<string> Said(ReportPart part) =>
        part switch
        {
            ReportFacts facts => facts.Rows.SelectMany(r => new[] { r.Name, r.Value }),
            ReportTable table => [table.Caption, .. table.Heads, .. table.Rows.SelectMany(r => r)],
            ReportList list => [list.Head, .. list.Items.SelectMany(i => new[] { i.Text, i.Beside })],
            ReportText text => [text.Text],
            ReportNotes notes => notes.Notes,
            ReportFigure => [],
            _ => throw new ArgumentException(part.GetType().Name),
        };

    private sealed class OffDiscs : ICorrection
    {
        public bool IsCalibrated => true;

        public (double Millimetres, double StandardUncertaintyMillimetres) Apply(double rawMillimetres) =>
            (rawMillimetres + 0.02, 0.012);
    }
}
