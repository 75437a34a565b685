using System.Runtime.CompilerServices;
using PupilBridge.Exchange.Certificates;

namespace PupilBridge.Exchange.Tests.Certificates;

/// <summary>
/// A certificate that was issued once reads the same for good: the text in Golden/certificate.json must give the plain text beside it,
/// whatever later programs compute. <c>PUPILBRIDGE_REWRITE_GOLDEN=1</c> writes the plain text anew, never the issued one; read the
/// difference.
/// </summary>
public sealed class GoldenCertificateTests
{
    [Fact]
    public void What_was_issued_reads_as_it_did()
    {
        var issued = File.ReadAllText(Golden("certificate.json")).TrimEnd('\n');
        var text = CertificateDocuments.Text(issued, isDraft: false);
        if (Environment.GetEnvironmentVariable("PUPILBRIDGE_REWRITE_GOLDEN") == "1")
            File.WriteAllText(Golden("certificate.txt"), text);
        Assert.Equal(File.ReadAllText(Golden("certificate.txt")), text);
    }

    private static string Golden(string name, [CallerFilePath] string here = "") =>
        Path.Combine(Path.GetDirectoryName(here)!, "Golden", name);
}
