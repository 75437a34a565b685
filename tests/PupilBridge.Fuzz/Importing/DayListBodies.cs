using System.Text;
using PupilBridge.Clinic.DayLists;
using PupilBridge.Fuzz.Engine;

namespace PupilBridge.Fuzz.Importing;

/// <summary>A day's list as a file: refused with faults that name their place, or taken; and what was taken is the same when it is written plainly and read again.</summary>
internal static class DayListBodies
{
    private static readonly DateOnly Day = new(2026, 3, 2);
    private static readonly DayListHeadings Headings = new();

    public static IFuzzTarget Lists() =>
        new BodyTarget(
            "day-list",
            [
                "patient,name,birth date,time\nQ-1001,A. Pilot,1980-05-17,09:00\nQ-1002,\"Crane, B.\",1975-01-02,09:30\nQ-1003,,,\n"u8.ToArray(),
                "\uFEFFDate;Patient No.;Full name;at\r\n2026-03-02;Q-1001;\"A \"\"Pilot\"\"\";9:00\r\n\r\n2026-03-03;Q-1001;;\r\n"u8.ToArray(),
                "id\n=1+1\n"u8.ToArray(),
            ],
            Read
        );

    private static ulong Read(ReadOnlySpan<byte> body)
    {
        var file = DayListReader.Read(body.ToArray(), Headings, Day);
        var signature = new Signature();
        foreach (var fault in file.Faults.Take(6))
        {
            if ($"{fault}".Length == 0 || fault.Line < 0)
                throw new Finding("A day's list is refused without a word", $"{fault.Line} {fault.Column}");
            signature.Add((int)(fault.Column ?? 0));
            signature.Add(
                fault.Words.AsSpan(0, Math.Min(12, fault.Words.Length)).ToString().GetHashCode(StringComparison.Ordinal)
                    & 0xFFF
            );
        }

        signature.Bucket(file.Rows.Count);
        signature.Bucket(file.Unused.Count);
        if (file.Faults.Count == 0)
            Again(file);
        return signature.Bits;
    }

    private static void Again(DayListFile file)
    {
        if (file.Rows.Count == 0)
            throw new Finding("A day's list without faults has nobody in it", "no rows");
        var text = new StringBuilder("patient,name,birth date,time,day\n");
        foreach (var row in file.Rows)
            text.Append(
                $"{Quoted(row.Patient)},{Quoted(row.Name)},{row.BirthDate:yyyy-MM-dd},{row.Time},{row.Day:yyyy-MM-dd}\n"
            );
        var again = DayListReader.Read(Encoding.UTF8.GetBytes(text.ToString()), Headings, Day);
        var same = again.Faults.Count == 0 && again.Rows.Count == file.Rows.Count;
        for (var i = 0; same && i < file.Rows.Count; i++)
            same = again.Rows[i] with { Line = 0 } == file.Rows[i] with { Line = 0 };
        if (!same)
            throw new Finding(
                "A day's list that was taken is not the same when it is written plainly and read again",
                $"{text} {string.Join(' ', again.Faults)}"
            );
    }

    private static string Quoted(string? text) =>
        text is null ? "" : $"\"{text.Replace("\"", "\"\"", StringComparison.Ordinal)}\"";
}
