using System.CommandLine;
using System.Text;
using PupilBridge.Clinic.Views;
using PupilBridge.CommandLine;
using PupilBridge.Desk;
using PupilBridge.Exchange.Certificates;
using PupilBridge.Verbs.Writing;

namespace PupilBridge.Verbs.Bench.Certificates;

/// <summary><c>calibration certificate</c>: a certificate as it was issued.</summary>
internal sealed class CertificateVerb : Verb
{
    private readonly Argument<long> number = new("certificate") { Description = "The certificate's number." };

    private readonly Option<string?> pdf = new("--pdf")
    {
        Description = "Write it as PDF into this file.",
        HelpName = "FILE",
    };

    private readonly Option<string?> html = new("--html")
    {
        Description = "Write it as one HTML page into this file.",
        HelpName = "FILE",
    };

    private readonly Option<bool> force = new("--force") { Description = "Write over a file that is there already." };
    private readonly Option<bool> json = CommonOptions.Json("Print the text exactly as it was issued and journalled.");

    public CertificateVerb()
        : base("certificate", "Shows a certificate as it was issued, and how it stands now.")
    {
        Add(number);
        foreach (var option in (ReadOnlySpan<Option>)[pdf, html, force, json])
        {
            Add(option);
        }

        Example("pupilbridge calibration certificate 7", "certificate 7 as text");
        Example("pupilbridge calibration certificate 7 --pdf certificate-7.pdf", "to be printed");
        Example(
            "pupilbridge calibration certificate 7 --json > certificate-7.json",
            "exactly the text that was issued"
        );
        EndsWith(DeskAccess.Exits);
        Does(ShowAsync);
    }

    private async Task<ExitCode> ShowAsync(Call call, CancellationToken cancel)
    {
        var wanted = call.Get(number);
        var access = await DeskAccess.OpenAsync(call, cancel).ConfigureAwait(false);
        await using (access.ConfigureAwait(false))
        {
            var view =
                await access.AskBenchAsync(bench => bench.ShowCertificateAsync(wanted, cancel)).ConfigureAwait(false)
                ?? throw new CommandFailure(
                    ExitCode.NotFound,
                    $"There is no certificate {wanted}.",
                    "'pupilbridge calibration list' shows those that there are."
                );
            await WriteAsync(call, view).ConfigureAwait(false);
        }

        return ExitCode.Done;
    }

    private async Task WriteAsync(Call call, CertificateView view)
    {
        if (call.Get(pdf) is { } paper)
        {
            await WriteAsync(call, paper, to => CertificateDocuments.Pdf(view.Text, isDraft: false, to))
                .ConfigureAwait(false);
        }

        if (call.Get(html) is { } page)
        {
            await WriteAsync(
                    call,
                    page,
                    to => to.Write(Encoding.UTF8.GetBytes(CertificateDocuments.Html(view.Text, isDraft: false)))
                )
                .ConfigureAwait(false);
        }

        if (call.Get(json))
        {
            // Byte for byte as it stands in the journal; it is never written anew.
            call.Print(view.Text);
        }
        else if (call.Get(pdf) is null && call.Get(html) is null)
        {
            call.Print(CertificateDocuments.Text(view.Text, isDraft: false));
            call.Print($"How it stands now: {view.Standing}");
        }
    }

    private async Task WriteAsync(Call call, string path, Action<Stream> write)
    {
        var bytes = await GrowingFile
            .WriteAsync(
                path,
                call.Get(force),
                to =>
                {
                    write(to);
                    return Task.FromResult(to.Length);
                }
            )
            .ConfigureAwait(false);
        call.Remark($"Written: {path}, {bytes} bytes.");
    }
}
