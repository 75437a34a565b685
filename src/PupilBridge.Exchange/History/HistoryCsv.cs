using System.Globalization;
using CsvHelper;
using PupilBridge.Clinic.Views;

namespace PupilBridge.Exchange.History;

/// <summary>A patient's visits as CSV (RFC 4180): a head, CRLF between rows, and nothing that a spreadsheet would take for a formula.</summary>
public static class HistoryCsv
{
    private static readonly CsvWriterOptions Options = new()
    {
        NewLine = "\r\n",
        FormatProvider = CultureInfo.InvariantCulture,
        Injection = CsvInjection.Escape,
    };

    /// <summary>Writes the visits.</summary>
    /// <param name="history">The visits.</param>
    /// <returns>The file's text.</returns>
    public static string Write(PatientHistory history)
    {
        ArgumentNullException.ThrowIfNull(history);
        using var text = new StringWriter(CultureInfo.InvariantCulture);
        using (var csv = CsvWriter.Create(text, Options, leaveOpen: true))
        {
            csv.WriteRecord(["patient", .. HistoryTable.Columns]);
            foreach (var (visit, row) in history.Visits.Zip(HistoryTable.Rows(history)))
            {
                // The number that the exam was attached to, which may be another one of the same person.
                csv.WriteField(visit.Exam.Patient ?? history.Patient.Patient);
                foreach (var field in row)
                    Write(csv, field);
                csv.EndRecord();
            }
        }

        return text.ToString();
    }

    /// <summary>A number below zero begins like a formula and is none: numbers are written as numbers, with the places they have.</summary>
    private static void Write(CsvWriter csv, string field)
    {
        const NumberStyles Plain = NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint;
        if (decimal.TryParse(field, Plain, CultureInfo.InvariantCulture, out var number))
            csv.WriteField(number, "");
        else
            csv.WriteField(field);
    }
}
