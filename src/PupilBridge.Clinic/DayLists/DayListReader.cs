using System.Globalization;
using PupilBridge.Clinic.Desk;

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
            Fault(null, null, "The file is empty.", "Give a file with a line of headings and a line for each patient.");
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
            Fault(null, null, "The file names no patient.", "Give a line for each patient below the headings.");
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
                Fault(
                    record.Line,
                    column,
                    $"Two columns are taken for the same: '{first}' and '{heading}'.",
                    "Leave one out, or give it another heading."
                );
            }
        }

        if (!places.ContainsKey(DayListColumn.Patient))
        {
            var seen = string.Join(", ", record.Fields.Select(heading => $"'{heading}'"));
            Fault(
                record.Line,
                DayListColumn.Patient,
                $"No column is headed 'patient'; the headings are {seen}.",
                "Give the column of the patients' numbers the heading 'patient'."
            );
        }
    }

    private DayListRow? ReadRow(DayListRecord record, int width)
    {
        if (record.Fields.Count != width)
        {
            Fault(
                record.Line,
                null,
                $"It has {record.Fields.Count} fields, and the headings are {width}.",
                "Put a text that holds a separator into quotation marks, and leave a field empty rather than out."
            );
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
            return Fault(
                line,
                DayListColumn.Patient,
                "The patient's number is missing.",
                "Give it, or leave the line out."
            );
        }

        try
        {
            return Given.Patient(text).Value;
        }
        catch (EntryProblemException problem)
        {
            return Fault(line, DayListColumn.Patient, problem.Message, "Correct it.");
        }
    }

    private string? Name(long line, string? text)
    {
        try
        {
            return Given.Text(text?.ReplaceLineEndings(" "), "name");
        }
        catch (EntryProblemException problem)
        {
            return Fault(line, DayListColumn.Name, problem.Message, "Correct it.");
        }
    }

    private DateOnly? BirthDate(long line, string? text, DateOnly on)
    {
        var born = Date(line, DayListColumn.BirthDate, text);
        if (born is { } date && (date > on || date.Year < 1900))
        {
            Fault(
                line,
                DayListColumn.BirthDate,
                $"'{text}' cannot be a date of birth: it lies {(date > on ? "after the day of the list" : "before 1900")}.",
                "Check the year."
            );
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

        Fault(line, column, $"'{text}' is no date.", "Write it as year-month-day, such as 1980-05-17.");
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
            : Fault(line, DayListColumn.Time, $"'{text}' is no time.", "Write it as hours:minutes, such as 09:30.");
    }

    private string? Fault(long? line, DayListColumn? column, string wrong, string toDo)
    {
        faults.Add(new DayListFault(line, column, wrong, toDo));
        return null;
    }
}
