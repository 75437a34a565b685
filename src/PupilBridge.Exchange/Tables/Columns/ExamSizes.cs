using PupilBridge.Clinic.Outgoing;
using PupilBridge.Exams.Records;

namespace PupilBridge.Exchange.Tables.Columns;

/// <summary>The size that counts, for each eye and light, with its uncertainty.</summary>
internal static class ExamSizes
{
    private static readonly string[] Eyes = ["right", "left"];
    private static readonly string[] Lights = ["bright", "dim"];

    public static IReadOnlyList<Column<OutgoingRecord>> All { get; } =
    [.. Eyes.SelectMany(eye => Lights.SelectMany(light => Of(eye, light))), .. Lights.Select(Difference)];

    private static IEnumerable<Column<OutgoingRecord>> Of(string eye, string light)
    {
        var (side, room) = ($"{(eye == "right" ? "OD (right)" : "OS (left)")}", $"{light} light");
        yield return new(
            $"{eye}_{light}_mm",
            CellKind.Fraction,
            "mm",
            "more than 0",
            $"Diameter of the entrance pupil of {side} in {room}: the capture that counts; empty if none does.",
            exam => Cell.Millimetres(Find(exam, eye, light)?.DiameterMicrometres)
        );
        yield return new(
            $"{eye}_{light}_u_mm",
            CellKind.Fraction,
            "mm",
            "0 or more",
            "Its expanded uncertainty, k = 2.",
            exam => Cell.Millimetres(Find(exam, eye, light)?.ExpandedUncertaintyMicrometres)
        );
        yield return new(
            $"{eye}_{light}_calibrated",
            CellKind.YesNo,
            "",
            "true, false",
            "Whether reference discs stand behind it.",
            exam => Cell.Of(Find(exam, eye, light)?.IsCalibrated)
        );
        yield return new(
            $"{eye}_{light}_doubtful",
            CellKind.YesNo,
            "",
            "true, false",
            "Whether the state of the eye makes it unreliable.",
            exam => Cell.Of(Find(exam, eye, light)?.IsDoubtful)
        );
    }

    private static Column<OutgoingRecord> Difference(string light) =>
        new(
            $"{light}_right_minus_left_mm",
            CellKind.Fraction,
            "mm",
            "any",
            $"Right minus left in {light} light, negative where the left pupil is larger; empty unless both count. Whether it is beyond "
                + "its uncertainty is for the findings to say.",
            exam =>
                Cell.Millimetres(
                    Find(exam, "right", light)?.DiameterMicrometres - Find(exam, "left", light)?.DiameterMicrometres
                )
        );

    private static RecordSize? Find(OutgoingRecord exam, string eye, string light)
    {
        foreach (var size in exam.Record.Sizes)
        {
            if (size.Counts && size.Eye == eye && size.Light == light)
            {
                return size;
            }
        }

        return null;
    }
}
