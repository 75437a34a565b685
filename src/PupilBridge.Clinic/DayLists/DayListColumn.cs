namespace PupilBridge.Clinic.DayLists;

/// <summary>The columns of a day's list.</summary>
public enum DayListColumn
{
    /// <summary>The patient's number; every line has one.</summary>
    Patient = 1,

    /// <summary>The patient's name.</summary>
    Name = 2,

    /// <summary>The date of birth, <c>yyyy-MM-dd</c>.</summary>
    BirthDate = 3,

    /// <summary>When the patient is expected, <c>HH:mm</c>.</summary>
    Time = 4,

    /// <summary>The day, <c>yyyy-MM-dd</c>.</summary>
    Day = 5,
}
