using System.Text;
using System.Text.Json;
using PupilBridge.CommandLine;
using PupilBridge.Exams.Calibration;
using PupilBridge.Exams.Statistics;
using PupilBridge.Fuzz.Engine;
using PupilBridge.Tables;
using PupilBridge.Verbs.Bench.Discs;
using PupilBridge.Verbs.Calibration;

namespace PupilBridge.Fuzz.Importing;

/// <summary>
/// Tables that technicians bring as files: readings for <c>calibration fit</c>, and sets of discs. Refused in words that say what to do next, or
/// taken; a table that was taken is the same when it is written plainly and read again, and what is computed of it are numbers.
/// </summary>
internal static class TableBodies
{
    private const string File = "quay.csv";

    /// <summary>Readings for a line.</summary>
    /// <param name="read">Reads a table; a test puts a spoilt reader here.</param>
    public static IFuzzTarget Readings(Func<byte[], PlainTable>? read = null) =>
        new BodyTarget(
            "readings",
            [
                "indicated,certified\n3.021,3.000\n4.018,4.001\n5.024,5.002\n6.030,6.001\n8.028,8.003\n"u8.ToArray(),
                "\uFEFFDisc;Indicated diameter (mm);Correction (mm)\r\nA;3.02;-0.02\r\nB;5.01;\u22120.01\r\nC;8.0;0.00\r\nA;3.03;-0.03\r\n"u8.ToArray(),
                "x\ty\n21.521\t-0.171\n22.012\t-0.169\n22.512\t-0.166\n23.003\t-0.159"u8.ToArray(),
                "\"indicated\",\"correction\",\"note\"\n3,0.1,\"a \"\"good\"\" one\"\n4,0.1,\"two\nlines\"\n5,0.2,\n"u8.ToArray(),
            ],
            body => Judge(body, read ?? Product, Line)
        );

    /// <summary>Sets of reference discs.</summary>
    public static IFuzzTarget Discs() =>
        new BodyTarget(
            "discs",
            [
                "name,diameter_mm,standard_uncertainty_mm\nD2,2.001,0.002\nD4,4.002,0.002\nD8,7.998,0.003\n"u8.ToArray(),
                "Name;Diameter_mm;Standard_uncertainty_mm;remark\r\nD 2;2.0;0.001;\"kept dry\"\r\nD 8;8.0;0.001;\r\n"u8.ToArray(),
            ],
            body => Judge(body, Product, Discs)
        );

    /// <summary>The product's reader.</summary>
    public static PlainTable Product(byte[] body)
    {
        using var stream = new MemoryStream(body);
        return PlainTableReader.Read(File, stream);
    }

    private static ulong Judge(ReadOnlySpan<byte> body, Func<byte[], PlainTable> read, JudgeTable then)
    {
        var signature = new Signature();
        try
        {
            var table = read(body.ToArray());
            Again(table, read);
            signature.Bucket(table.Rows.Count);
            signature.Bucket(table.Headings.Count);
            then(table, ref signature);
        }
        catch (CommandFailure refused)
        {
            if (refused.Message.Length == 0 || refused.Next.Length == 0)
                throw new Finding("A table is refused without saying what to do", refused.Message);
            Add(ref signature, refused.Message);
        }

        return signature.Bits;
    }

    private delegate void JudgeTable(PlainTable table, ref Signature signature);

    /// <summary>Every cell in quotation marks, and no line end behind the last: the plainest writing that there is.</summary>
    private static void Again(PlainTable table, Func<byte[], PlainTable> read)
    {
        var lines = table.Rows.Select(row => row.Cells).Prepend(table.Headings);
        var text = string.Join('\n', lines.Select(cells => string.Join(',', cells.Select(Quoted))));
        var again = read(Encoding.UTF8.GetBytes(text));
        if (
            !again.Headings.SequenceEqual(table.Headings)
            || again.Rows.Count != table.Rows.Count
            || again.Rows.Zip(table.Rows).Any(pair => !pair.First.Cells.SequenceEqual(pair.Second.Cells))
        )
            throw new Finding("A table that was taken is not the same when it is written plainly and read again", text);
    }

    private static void Line(PlainTable table, ref Signature signature)
    {
        var columns = ReadingColumns.Of(table, null, null);
        if (columns.Points.Count != table.Rows.Count)
            throw new Finding("Not every row of a table is a reading", $"{columns.Points.Count} of {table.Rows.Count}");
        ReadingChecks.RefuseWrongUnits(table, columns);
        ReadingChecks.RefuseAlikeRows(table, areMeant: false);
        ReadingChecks.RefuseFewDiscs(table, columns);
        try
        {
            var line = new CalibrationLine(LineFit.Of(columns.Points, 5), new CommonOffset(0.005, 8));
            // What is no number has no place in JSON, and throws.
            var told = JsonSerializer.Serialize(FitJson.Of(line, [line.Predict(2), line.Predict(8)]));
            if (line.InterceptUncertainty < 0 || line.Fit.SlopeUncertainty < 0 || Math.Abs(line.Correlation) > 1)
                throw new Finding("An uncertainty is below 0, or a correlation beyond 1", told);
            signature.Add(1);
            signature.Bucket(told.Length);
        }
        catch (StatisticsRefusedException refused)
        {
            Add(ref signature, refused.Message);
        }
    }

    private static void Discs(PlainTable table, ref Signature signature)
    {
        var discs = DiscTable.Of(table);
        if (discs.Count != table.Rows.Count || discs.Any(disc => !(disc.DiameterMillimetres > 0)))
            throw new Finding("A set of discs has another number of discs, or one without a size", $"{discs.Count}");
        signature.Bucket(discs.Count);
    }

    private static void Add(ref Signature signature, string message)
    {
        foreach (var c in message.AsSpan(0, Math.Min(message.Length, 120)))
        {
            if (char.IsAsciiLetter(c))
                signature.Add(c);
        }
    }

    private static string Quoted(string cell) => $"\"{cell.Replace("\"", "\"\"", StringComparison.Ordinal)}\"";
}
