using System.CommandLine;
using System.Globalization;
using PupilBridge.Clinic.Outbox;
using PupilBridge.CommandLine;
using PupilBridge.Desk;

namespace PupilBridge.Verbs.Outbox;

/// <summary><c>outbox list</c>: what is on its way to another system, and what rests until somebody decides.</summary>
internal sealed class OutboxListVerb : Verb
{
    private readonly Option<string> part = new("--part")
    {
        Description =
            "stopped: what was refused, or is there twice; open: what the service works on; settled: what is done with.",
        DefaultValueFactory = _ => OutboxParts.Stopped,
    };

    private readonly PageOptions paging = new("lines");
    private readonly Option<bool> json = CommonOptions.Json();

    public OutboxListVerb()
        : base("list", "Lists signed versions on their way to another system, in the order of their signatures.")
    {
        part.AcceptOnlyFromAmong([.. OutboxParts.All]);
        foreach (var option in (ReadOnlySpan<Option>)[part, paging.Limit, paging.After, json])
        {
            Add(option);
        }

        Example("pupilbridge outbox list", "what rests until somebody decides");
        Example("pupilbridge outbox list --part open --json", "what is still to be sent, for a program");
        EndsWith(DeskAccess.Exits);
        Does(ListAsync);
    }

    private async Task<ExitCode> ListAsync(Call call, CancellationToken cancel)
    {
        var access = await DeskAccess.OpenAsync(call, cancel).ConfigureAwait(false);
        await using (access.ConfigureAwait(false))
        {
            var page = await access
                .AskAsync(desk =>
                    desk.ListOutboxAsync(call.Get(part)!, call.Get(paging.After), call.Get(paging.Limit), cancel)
                )
                .ConfigureAwait(false);
            if (call.Get(json))
            {
                call.PrintJson(page);
                return ExitCode.Done;
            }

            if (access.IsService)
            {
                Tell(call, page.Sending);
            }

            Print(call, page);
        }

        return ExitCode.Done;
    }

    private static void Tell(Call call, SendingState? sending)
    {
        call.Remark(
            sending is null ? "No destination is set (Sending:Address), so nothing is sent."
            : sending.Trouble is { } trouble ? trouble
            : $"Records go to {sending.Destination}, {sending.Address}."
        );
        if (sending?.RestsUntil is { } until)
        {
            call.Remark($"It is tried again at {call.LocalTime(until)}.");
        }
    }

    private static void Print(Call call, OutboxPage page)
    {
        var table = new TextTable("version", "patient", "signed", "state", "tries", "answer", "why");
        foreach (var line in page.Items)
        {
            table.Add(
                OutboxNames.Of(line),
                line.Patient ?? "-",
                call.LocalTime(line.SignedAt),
                line.State,
                line.Attempts.ToString(CultureInfo.InvariantCulture),
                line.AnswerCode?.ToString(CultureInfo.InvariantCulture) ?? "-",
                line.Reason ?? "-"
            );
        }

        table.Print(call, "Nothing is listed.");
        PageOptions.TellNext(call, page.Next);
    }
}
