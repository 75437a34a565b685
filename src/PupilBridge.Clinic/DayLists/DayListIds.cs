using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using PupilBridge.Exams.Entries;

namespace PupilBridge.Clinic.DayLists;

/// <summary>
/// Ids for what is entered from a file. They follow from the file's content, so that a file that is given again, after an interruption
/// or by mistake, enters nothing a second time.
/// </summary>
/// <param name="content">The file's content.</param>
internal sealed class DayListIds(byte[] content)
{
    private readonly string digest = Convert.ToHexStringLower(SHA256.HashData(content));

    /// <summary>The id for one patient.</summary>
    /// <param name="number">The patient's number.</param>
    /// <param name="identity">What will be known of them.</param>
    public string OfPatient(string number, Desk.Identity identity) => Of("patient", number, identity.ToString());

    /// <summary>The id for the list of one day.</summary>
    /// <param name="day">The day.</param>
    /// <param name="replaced">The entry of the list that it replaces, null if none: an older list can be given once more.</param>
    public string OfList(DateOnly day, EntryId? replaced) =>
        Of("list", day.ToString("O", CultureInfo.InvariantCulture), replaced?.ToString() ?? "none");

    private string Of(params string[] parts) =>
        Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(string.Join('\n', [digest, .. parts]))))[..32];
}
