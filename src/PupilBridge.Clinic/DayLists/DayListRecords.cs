using CsvHelper;
using PupilBridge.Clinic.Text;

namespace PupilBridge.Clinic.DayLists;

/// <summary>The records of a CSV file by RFC 4180, with the separator that its first line uses: comma or semicolon.</summary>
internal static class DayListRecords
{
    /// <summary>Reads all records, empty lines left out. Formulas stay the text that they are.</summary>
    /// <param name="bytes">UTF-8, with or without a byte order mark.</param>
    /// <param name="faults">Told of broken quoting.</param>
    public static List<DayListRecord> Read(byte[] bytes, List<DayListFault> faults)
    {
        var options = new CsvReaderOptions
        {
            HasHeader = false,
            Separator = SeparatorOf(bytes),
            TrimWhitespace = true,
            TrackLineNumbers = true,
            DetectSeparatorHint = false,
            OnMalformedRecord = broken =>
                faults.Add(new DayListFault(broken.LineNumber, null, ClinicText.DayLists["Fault.Quotes"])),
        };
        var records = new List<DayListRecord>();
        using var reader = CsvReader.Create(bytes, options);
        while (reader.Read())
        {
            var fields = reader.Current.ToArray();
            if (fields.Any(field => !string.IsNullOrWhiteSpace(field)))
            {
                records.Add(new DayListRecord(reader.LineNumber, [.. fields.Select(field => field.Trim())]));
            }
        }

        return records;
    }

    /// <summary>Whichever stands more often in the first line, outside quotation marks.</summary>
    private static char SeparatorOf(ReadOnlySpan<byte> bytes)
    {
        var isQuoted = false;
        var (commas, semicolons) = (0, 0);
        foreach (var b in bytes)
        {
            if (b is (byte)'\n' or (byte)'\r' && !isQuoted)
            {
                if (commas + semicolons > 0)
                {
                    break;
                }
            }
            else if (b == (byte)'"')
            {
                isQuoted = !isQuoted;
            }
            else if (!isQuoted)
            {
                commas += b == (byte)',' ? 1 : 0;
                semicolons += b == (byte)';' ? 1 : 0;
            }
        }

        return semicolons > commas ? ';' : ',';
    }
}

/// <summary>One record of a file.</summary>
/// <param name="Line">The line where it begins, from 1.</param>
/// <param name="Fields">Its fields without blanks at their ends.</param>
internal sealed record DayListRecord(long Line, IReadOnlyList<string> Fields);
