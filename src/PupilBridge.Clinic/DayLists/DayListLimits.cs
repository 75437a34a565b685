namespace PupilBridge.Clinic.DayLists;

/// <summary>What a day's list may measure. A clinic's day is far smaller; a file beyond it is another file.</summary>
public static class DayListLimits
{
    /// <summary>The most bytes of a file.</summary>
    public const int MaxBytes = 1_000_000;

    /// <summary>The most patients of one day.</summary>
    public const int MaxPatients = 500;

    /// <summary>The most faults that are told at once; the rest are counted.</summary>
    public const int MaxFaults = 50;
}
