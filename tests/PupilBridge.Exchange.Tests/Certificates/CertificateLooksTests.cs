using System.Text;
using PupilBridge.Exchange.Certificates;
using PupilBridge.Exchange.Tests.Report;

namespace PupilBridge.Exchange.Tests.Certificates;

/// <summary>Keeps what people look at.</summary>
public sealed class CertificateLooksTests
{
    public static TheoryData<string> Names => [.. CertificateSamples.Names];

    [Theory]
    [MemberData(nameof(Names))]
    public void Keep(string name)
    {
        var json = CertificateSamples.Json(name);
        using var pdf = new MemoryStream();
        CertificateDocuments.Pdf(json, false, pdf);
        Samples.Keep($"certificate-{name}.pdf", pdf.ToArray());
        Samples.Keep($"certificate-{name}.html", Encoding.UTF8.GetBytes(CertificateDocuments.Html(json, false)));
        Samples.Keep($"certificate-{name}.txt", Encoding.UTF8.GetBytes(CertificateDocuments.Text(json, false)));
        Samples.Keep($"certificate-{name}.json", Encoding.UTF8.GetBytes(json));
        using var draft = new MemoryStream();
        CertificateDocuments.Pdf(json, true, draft);
        Samples.Keep($"draft-{name}.pdf", draft.ToArray());
        Samples.Keep($"draft-{name}.html", Encoding.UTF8.GetBytes(CertificateDocuments.Html(json, true)));
    }
}
