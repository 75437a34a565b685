using System.Globalization;
using PupilBridge.Clinic.Desk;
using PupilBridge.Clinic.Text;

namespace PupilBridge.Clinic.DayLists;

/// <summary>Understands a file: which column is which, and what each line says. What it cannot understand is a fault with its place.</summary>
/// <param name="headings">By which words columns are recognised.</param>
/// <param name="day">The day for lines that name none.</param>
internal sealed class DayListReader(DayListHeadings headings, DateOnly day)
{
    private readonly List<DayListFault> faults = [];
    private readonly Dictionary<DayListColumn, int> places = [];
    private readonly List<string> unused = [];

    /// <summary>Understands one file.</summary>
    public static DayListFile Read(byte[] bytes, DayListHeadings headings, DateOnly day) =>
        DayListBytes.Fault(bytes) is { } fault
            ? new DayListFile([], [], [fault])
            : new DayListReader(headings, day).Read(bytes);

    private DayListFile Read(byte[] bytes)
    {
        var records = DayListRecords.Read(bytes, faults);
        if (records.Count == 0)
        {
            Fault(null, null, ClinicText.DayLists["Fault.Empty"]);
            return new DayListFile([], [], faults);
        }

        ReadHeadings(records[0]);
        if (faults.Count > 0)
        {
            return new DayListFile([], unused, faults);
        }

        var rows = records.Skip(1).Select(record => ReadRow(record, records[0].Fields.Count)).OfType<DayListRow>();
        var read = rows.ToList();
        if (read.Count == 0 && faults.Count == 0)
        {
            Fault(null, null, ClinicText.DayLists["Fault.Nobody"]);
        }

        faults.AddRange(DayListRepeats.Of(read));
        return new DayListFile(read, unused, faults);
    }

    private void ReadHeadings(DayListRecord record)
    {
        for (var place = 0; place < record.Fields.Count; place++)
        {
            var heading = record.Fields[place];
            if (headings.Find(heading) is not { } column)
            {
                unused.Add(heading);
            }
            else if (!places.TryAdd(column, place))
            {
                var first = record.Fields[places[column]];
                Fault(record.Line, column, ClinicText.DayLists.Get("Fault.TwoColumns", first, heading));
            }
        }

        if (!places.ContainsKey(DayListColumn.Patient))
        {
            var seen = string.Join(", ", record.Fields.Select(heading => $"'{heading}'"));
            Fault(record.Line, DayListColumn.Patient, ClinicText.DayLists.Get("Fault.NoPatientColumn", seen));
        }
    }

    private DayListRow? ReadRow(DayListRecord record, int width)
    {
        if (record.Fields.Count != width)
        {
            Fault(record.Line, null, ClinicText.DayLists.Get("Fault.Width", record.Fields.Count, width));
            return null;
        }

        var before = faults.Count;
        var line = record.Line;
        var patient = Patient(line, Field(record, DayListColumn.Patient));
        var name = Name(line, Field(record, DayListColumn.Name));
        var on = Date(line, DayListColumn.Day, Field(record, DayListColumn.Day)) ?? day;
        var born = BirthDate(line, Field(record, DayListColumn.BirthDate), on);
        var time = Time(line, Field(record, DayListColumn.Time));
        return faults.Count == before ? new DayListRow(line, patient!, name, born, on, time) : null;
    }

    private string? Field(DayListRecord record, DayListColumn column) =>
        places.TryGetValue(column, out var place) && record.Fields[place].Length > 0 ? record.Fields[place] : null;

    private string? Patient(long line, string? text)
    {
        if (text is null)
        {
            return Fault(line, DayListColumn.Patient, ClinicText.DayLists["Fault.NoNumber"]);
        }

        try
        {
            return Given.Patient(text).Value;
        }
        catch (EntryProblemException problem)
        {
            return Fault(line, DayListColumn.Patient, ClinicText.DayLists.Get("Fault.Correct", problem.Message));
        }
    }

    private string? Name(long line, string? text)
    {
        try
        {
            return Given.Text(text?.ReplaceLineEndings(" "), DayListHeadings.NameOf(DayListColumn.Name));
        }
        catch (EntryProblemException problem)
        {
            return Fault(line, DayListColumn.Name, ClinicText.DayLists.Get("Fault.Correct", problem.Message));
        }
    }

    private DateOnly? BirthDate(long line, string? text, DateOnly on)
    {
        var born = Date(line, DayListColumn.BirthDate, text);
        if (born > on)
        {
            Fault(line, DayListColumn.BirthDate, ClinicText.DayLists.Get("Fault.BornLater", text));
        }
        else if (born is { Year: < 1900 })
        {
            Fault(line, DayListColumn.BirthDate, ClinicText.DayLists.Get("Fault.BornEarly", text));
        }

        return born;
    }

    private DateOnly? Date(long line, DayListColumn column, string? text)
    {
        if (text is null)
        {
            return null;
        }

        if (DateOnly.TryParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var date))
        {
            return date;
        }

        Fault(line, column, ClinicText.DayLists.Get("Fault.NoDate", text));
        return null;
    }

    private string? Time(long line, string? text)
    {
        if (text is null)
        {
            return null;
        }

        return TimeOnly.TryParseExact(
            text,
            ["HH:mm", "H:mm"],
            CultureInfo.InvariantCulture,
            DateTimeStyles.None,
            out var t
        )
            ? t.ToString("HH:mm", CultureInfo.InvariantCulture)
            : Fault(line, DayListColumn.Time, ClinicText.DayLists.Get("Fault.NoTime", text));
    }

    private string? Fault(long? line, DayListColumn? column, string words)
    {
        faults.Add(new DayListFault(line, column, words));
        return null;
    }
}
