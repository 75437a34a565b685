using System.Globalization;
using PupilBridge.Clinic.Text;
using PupilBridge.Exams.Entries;

namespace PupilBridge.Clinic.Desk;

/// <summary>What says who a patient is, beside the number.</summary>
/// <param name="Name">The name; null if none is known.</param>
/// <param name="BirthDate">The date of birth; null if it is not known.</param>
internal sealed record Identity(string? Name, DateOnly? BirthDate)
{
    /// <summary>What is known of a patient; nothing where nobody entered the number, or it was erased.</summary>
    public static Identity Of(PatientEntered? known) =>
        new(string.IsNullOrEmpty(known?.Details?.Name) ? null : known.Details.Name, known?.Details?.BirthDate);

    /// <summary>Whether both cannot be the same person: what both know differs. Capitals and the width of blanks do not matter.</summary>
    public static bool Differs(Identity one, Identity other) =>
        (one.Name is { } name && other.Name is { } otherName && Bare(name) != Bare(otherName))
        || (one.BirthDate is { } born && other.BirthDate is { } otherBorn && born != otherBorn);

    /// <summary>This, with what it lacks taken from another.</summary>
    public Identity Or(Identity other) => new(Name ?? other.Name, BirthDate ?? other.BirthDate);

    /// <summary>The identity in words.</summary>
    public override string ToString() =>
        (Name, BirthDate) switch
        {
            (null, null) => ClinicText.Desk["Identity.Nothing"],
            (null, { } born) => ClinicText.Desk.Get("Identity.Born", Date(born)),
            ({ } name, null) => $"'{name}'",
            ({ } name, { } born) => ClinicText.Desk.Get("Identity.NameBorn", name, Date(born)),
        };

    private static string Date(DateOnly date) => date.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    private static string Bare(string name) =>
        string.Join(' ', name.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries)).ToUpperInvariant();
}
