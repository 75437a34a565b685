using System.Text.Json;
using PupilBridge.Clinic.Text;
using PupilBridge.Journal;

namespace PupilBridge.Clinic.Erasing.Proposals;

/// <summary>
/// The file <c>erasure-proposals.json</c> in the data folder, which only its owner may read. It is written anew beside the old one, brought to
/// the disk and renamed. Losing it only means proposing again.
/// </summary>
/// <param name="dataFolder">The data folder.</param>
internal sealed class ProposalFile(string dataFolder)
{
    /// <summary>The file's name.</summary>
    public const string Name = "erasure-proposals.json";

    private readonly string path = Path.Combine(dataFolder, Name);

    /// <summary>The proposals; none where there is no file.</summary>
    /// <exception cref="EntryProblemException">It cannot be read, or is something else.</exception>
    public List<StoredProposal> Read()
    {
        try
        {
            return JsonSerializer.Deserialize(File.ReadAllBytes(path), ProposalJson.Default.ListStoredProposal) ?? [];
        }
        catch (Exception none) when (none is FileNotFoundException or DirectoryNotFoundException)
        {
            return [];
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException or JsonException)
        {
            throw new EntryProblemException(ClinicText.Desk.Get("Propose.CannotRead", path, fault.Message), fault);
        }
    }

    /// <summary>Writes the proposals; they are on disk when this returns.</summary>
    /// <exception cref="EntryProblemException">They cannot be written.</exception>
    public void Write(List<StoredProposal> proposals)
    {
        try
        {
            PrivateFile.Replace(
                path,
                JsonSerializer.SerializeToUtf8Bytes(proposals, ProposalJson.Default.ListStoredProposal)
            );
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
        {
            throw new EntryProblemException(ClinicText.Desk.Get("Propose.CannotWrite", path, fault.Message), fault);
        }
    }
}
