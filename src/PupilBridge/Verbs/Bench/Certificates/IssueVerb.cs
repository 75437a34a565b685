using System.CommandLine;
using PupilBridge.Clinic.Entries;
using PupilBridge.Clinic.Views;
using PupilBridge.CommandLine;
using PupilBridge.Desk;
using PupilBridge.Exchange.Certificates;
using PupilBridge.Verbs.Entering;

namespace PupilBridge.Verbs.Bench.Certificates;

/// <summary><c>calibration issue</c>: shows the certificate of a finished run, and issues that one.</summary>
internal sealed class IssueVerb : Verb
{
    private readonly Argument<long> run = new("run") { Description = "The finished calibration run." };

    private readonly Option<string?> effective = MomentOption.New(
        "--effective",
        "From when on it corrects exams. Without it: from now on."
    );

    private readonly Option<string?> expires = MomentOption.New(
        "--expires",
        "From when on it counts as expired. Without it: after the months of the setting Bench:CertificateMonths."
    );

    private readonly Option<bool> yes = new("--yes") { Description = "Issue it without asking." };
    private readonly Option<bool> json = CommonOptions.Json("Print the certificate as it was issued.");
    private readonly Typist typist = new();

    public IssueVerb()
        : base(
            "issue",
            "Issues the certificate of a finished calibration. It is shown first; once issued it is never changed, and corrects the exams that "
                + "open from its effective date on."
        )
    {
        Add(run);
        foreach (var option in (ReadOnlySpan<Option>)[effective, expires, yes, typist.Option, json])
        {
            Add(option);
        }

        Example("pupilbridge calibration issue 412 --who TE", "shows the certificate of run 412, and asks");
        Example("pupilbridge calibration issue 412 --expires 2027-03-01 --yes --who TE", "without asking");
        EndsWith(DeskAccess.Exits);
        Does(IssueAsync);
    }

    private async Task<ExitCode> IssueAsync(Call call, CancellationToken cancel)
    {
        typist.Stamp(call);
        var number = call.Get(run);
        var sending = await EntrySending.OpenAsync(call, cancel).ConfigureAwait(false);
        await using (sending.ConfigureAwait(false))
        {
            var (text, digest) = await DraftAsync(sending.Access, number, cancel).ConfigureAwait(false);
            var asked = !call.Get(yes);
            if (asked || !call.Get(json))
            {
                call.Print(CertificateDocuments.Text(text, isDraft: true));
            }

            if (asked && !IsYes(call))
            {
                call.Remark("Nothing was issued.");
                return ExitCode.Refused;
            }

            var stamp = typist.Stamp(call);
            await sending
                .SendAsync(
                    new IssueEntry
                    {
                        EntryId = Typist.NewId(),
                        Who = stamp.Who,
                        At = stamp.At,
                        ProgramVersion = stamp.ProgramVersion,
                        Run = number,
                        SeenDigest = digest,
                        Effective = call.Moment(effective),
                        Expires = call.Moment(expires),
                    },
                    cancel
                )
                .ConfigureAwait(false);
            Tell(call, await IssuedAsync(sending.Access, number, cancel).ConfigureAwait(false));
        }

        return ExitCode.Done;
    }

    private static async Task<(string Text, string Digest)> DraftAsync(
        DeskAccess access,
        long number,
        CancellationToken cancel
    )
    {
        var draft =
            await access.AskBenchAsync(bench => bench.DraftCertificateAsync(number, cancel)).ConfigureAwait(false)
            ?? throw BenchAsking.NoSuchRun(number);
        return draft is { Text: { } text, Digest: { } digest }
            ? (text, digest)
            : throw new CommandFailure(ExitCode.Refused, draft.Obstacle ?? "");
    }

    /// <summary>What was issued, read back: it is told as issued only if the journal says so.</summary>
    private static async Task<CertificateView> IssuedAsync(DeskAccess access, long number, CancellationToken cancel)
    {
        var issued = await access.RunAsync(number, cancel).ConfigureAwait(false);
        return
            issued.Line.Certificate is { } certificate
            && await access
                .AskBenchAsync(bench => bench.ShowCertificateAsync(certificate, cancel))
                .ConfigureAwait(false)
                is { } view
            ? view
            : throw new CommandFailure(
                ExitCode.Refused,
                $"Run {number} got no certificate.",
                $"Look at it with 'pupilbridge calibration show {number}', and issue it again."
            );
    }

    private void Tell(Call call, CertificateView view)
    {
        if (call.Get(json))
        {
            call.Print(view.Text);
            return;
        }

        call.Print();
        call.Print($"Issued: certificate {view.Number}. {view.Standing}");
        call.Print($"As a document: pupilbridge calibration certificate {view.Number}");
    }

    private static bool IsYes(Call call)
    {
        if (call.Terminal.ReadKey is not { } readKey)
        {
            throw new CommandFailure(
                ExitCode.Usage,
                "Nobody can be asked whether to issue it; nothing was issued.",
                "Read it, then run the command again with --yes."
            );
        }

        call.Terminal.Error.Write("Issue it? It can never be changed. [y/n] ");
        call.Terminal.Error.Flush();
        var isYes = readKey().Key == ConsoleKey.Y;
        call.Remark(isYes ? "yes" : "no");
        return isYes;
    }
}
