using System.CommandLine;
using System.Globalization;
using System.Text;
using PupilBridge.Clinic;
using PupilBridge.Clinic.Views;
using PupilBridge.CommandLine;
using PupilBridge.Desk;
using PupilBridge.Verbs.Writing;

namespace PupilBridge.Verbs.Bench.WhatIf;

/// <summary><c>calibration apply --what-if</c>: what exams would read under another calibration. It changes none.</summary>
internal sealed class ApplyVerb : Verb
{
    private readonly Option<bool> whatIf = new("--what-if")
    {
        Description = "Show what exams would read; nothing is changed.",
    };

    private readonly Option<long?> certificate = new("--certificate")
    {
        Description = "Under this certificate.",
        HelpName = "NUMBER",
    };

    private readonly Option<bool> none = new("--none") { Description = "Without any calibration." };

    private readonly Option<string?> instrument = new("--instrument")
    {
        Description = "The exams on this instrument. Without it: the certificate's own.",
        HelpName = "SERIAL",
    };

    private readonly Option<DateOnly?> from = new("--from")
    {
        Description = "Only exams opened on this day or later, by this machine's calendar.",
        HelpName = "YYYY-MM-DD",
    };

    private readonly Option<DateOnly?> to = new("--to")
    {
        Description = "Only exams opened on this day or earlier.",
        HelpName = "YYYY-MM-DD",
    };

    private readonly Option<string?> csv = new("--csv")
    {
        Description = "Write every size as it is and as it would be into this file.",
        HelpName = "FILE",
    };

    private readonly Option<bool> force = new("--force") { Description = "Write over a file that is there already." };
    private readonly Option<bool> json = CommonOptions.Json("Print the summary as one JSON document.");

    public ApplyVerb()
        : base(
            "apply",
            "Shows what earlier exams would read under another calibration, changing none. A certificate applies by itself to the exams that "
                + "open from its effective date on."
        )
    {
        foreach (
            var option in (ReadOnlySpan<Option>)[whatIf, certificate, none, instrument, from, to, csv, force, json]
        )
        {
            Add(option);
        }

        Example(
            "pupilbridge calibration apply --what-if --certificate 7",
            "every exam on the certificate's instrument"
        );
        Example(
            "pupilbridge calibration apply --what-if --none --instrument QA-1 --from 2026-03-01 --csv without.csv",
            "without any calibration, every size into a file"
        );
        EndsWith(DeskAccess.Exits);
        Does(ShowAsync);
    }

    private async Task<ExitCode> ShowAsync(Call call, CancellationToken cancel)
    {
        var request = Request(call);
        var access = await DeskAccess.OpenAsync(call, cancel).ConfigureAwait(false);
        await using (access.ConfigureAwait(false))
        {
            var summary = call.Get(csv) is { } path
                ? await GrowingFile
                    .WriteAsync(path, call.Get(force), to => SumAsync(access, request, to, cancel))
                    .ConfigureAwait(false)
                : await SumAsync(access, request, null, cancel).ConfigureAwait(false);
            if (call.Get(json))
            {
                call.PrintJson(summary);
            }
            else
            {
                WhatIfSummary.Print(call, summary);
            }
        }

        return ExitCode.Done;
    }

    private static async Task<WhatIfSummary> SumAsync(
        DeskAccess access,
        WhatIfRequest request,
        Stream? to,
        CancellationToken cancel
    )
    {
        var summary = new WhatIfSummary();
        var writer = to is null ? null : new StreamWriter(to, new UTF8Encoding(false), 1 << 14, leaveOpen: true);
        await using (writer)
        {
            writer?.Write(WhatIfRows.Head);
            do
            {
                var page = await access
                    .AskBenchAsync(bench => bench.WhatIfAsync(request, cancel))
                    .ConfigureAwait(false);
                foreach (var exam in page.Exams)
                {
                    summary.Add(exam);
                    writer?.Write(WhatIfRows.Of(exam));
                }

                request = request with { After = page.Next };
            } while (request.After is not null);
        }

        return summary;
    }

    private WhatIfRequest Request(Call call)
    {
        if (!call.Get(whatIf))
        {
            throw new CommandFailure(
                ExitCode.Usage,
                "A certificate applies by itself: from its effective date on it corrects the exams that open on its instrument. Earlier exams "
                    + "are never changed.",
                "Add --what-if to see what earlier exams would read under another one."
            );
        }

        var (number, without) = (call.Get(certificate), call.Get(none));
        if (number is null != without)
        {
            throw new CommandFailure(
                ExitCode.Usage,
                "It is not said under which calibration.",
                "Give --certificate NUMBER, or --none with --instrument SERIAL, not both."
            );
        }

        if (without && call.Get(instrument) is null)
        {
            throw new CommandFailure(
                ExitCode.Usage,
                "It is not said for which instrument.",
                "Name it with --instrument SERIAL."
            );
        }

        var (first, last) = (call.Get(from), call.Get(to));
        if (last < first)
        {
            throw new CommandFailure(
                ExitCode.Usage,
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"--to {last:yyyy-MM-dd} is before --from {first:yyyy-MM-dd}."
                ),
                "Give the earlier day as --from."
            );
        }

        return new WhatIfRequest
        {
            Certificate = number,
            Instrument = call.Get(instrument),
            OpenedFrom = Begin(call, first),
            OpenedBefore = Begin(call, last?.AddDays(1)),
            Limit = 500,
        };
    }

    private static DateTimeOffset? Begin(Call call, DateOnly? day) =>
        day is { } known ? ClinicDay.Begin(known, call.Time.LocalTimeZone) : null;
}
