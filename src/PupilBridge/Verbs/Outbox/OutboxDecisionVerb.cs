using System.CommandLine;
using PupilBridge.Clinic.Entries;
using PupilBridge.Clinic.Outbox;
using PupilBridge.CommandLine;
using PupilBridge.Verbs.Entering;

namespace PupilBridge.Verbs.Outbox;

/// <summary><c>outbox retry</c> and <c>outbox withhold</c>: a person decides about signed versions that rest. Who and why is journalled.</summary>
internal sealed class OutboxDecisionVerb : EnteringVerb
{
    private const int PageSize = 500;

    private readonly string decision;

    private readonly Argument<string[]> versions = new("version")
    {
        Description = "The exam's number, a hyphen and the version, as 'outbox list' prints them.",
        Arity = ArgumentArity.ZeroOrMore,
        HelpName = "EXAM-VERSION",
    };

    private readonly Option<bool> all = new("--all")
    {
        Description = "All that were refused, or are at the other system twice.",
    };

    private readonly Option<string> reason = new("--reason")
    {
        Description = "Why, for the journal.",
        HelpName = "TEXT",
        Required = true,
    };

    private OutboxDecisionVerb(string decision, string description)
        : base(decision, description)
    {
        this.decision = decision;
        Add(versions);
        Add(all);
        Add(reason);
    }

    /// <summary><c>outbox retry</c>.</summary>
    public static OutboxDecisionVerb Retry()
    {
        var verb = new OutboxDecisionVerb(
            SendingEntry.Retry,
            "Has signed versions tried again that were refused, are there twice, or were withheld."
        );
        verb.Example("pupilbridge outbox retry 17-1 --reason 'they have put it right' --who AD", "one version");
        verb.Example("pupilbridge outbox retry --all --reason 'new certificate' --who AD", "all that rest");
        return verb;
    }

    /// <summary><c>outbox withhold</c>.</summary>
    public static OutboxDecisionVerb Withhold()
    {
        var verb = new OutboxDecisionVerb(SendingEntry.Withhold, "Decides that signed versions are not sent.");
        verb.Example("pupilbridge outbox withhold 17-1 --reason 'sent on paper' --who AD", "this one is not sent");
        return verb;
    }

    /// <inheritdoc/>
    protected override async Task<IReadOnlyList<DeskEntry>> EntriesAsync(
        Call call,
        EntryStamp stamp,
        EntrySending sending,
        CancellationToken cancel
    )
    {
        var named = (call.Get(versions) ?? []).Select(OutboxNames.Read).ToList();
        if (named.Count > 0 == call.Get(all))
        {
            throw new CommandFailure(
                ExitCode.Usage,
                "It is not said which versions.",
                "Name them, or write --all, not both."
            );
        }

        if (call.Get(all))
        {
            named = await StoppedAsync(sending, cancel).ConfigureAwait(false);
        }

        return
        [
            .. named.Select(version => new SendingEntry
            {
                EntryId = Typist.NewId(),
                Who = stamp.Who,
                At = stamp.At,
                ProgramVersion = stamp.ProgramVersion,
                Exam = version.Exam,
                Version = version.Version,
                Decision = decision,
                Reason = call.Get(reason)!,
            }),
        ];
    }

    /// <inheritdoc/>
    protected override string Words(DeskEntry entry) =>
        entry is SendingEntry { Version: var version }
            ? decision == SendingEntry.Retry
                ? $"version {version} is sent again"
                : $"version {version} is not sent"
            : decision;

    private static async Task<List<(long Exam, int Version)>> StoppedAsync(
        EntrySending sending,
        CancellationToken cancel
    )
    {
        var found = new List<(long, int)>();
        string? after = null;
        do
        {
            var from = after;
            var page = await sending
                .Access.AskAsync(desk => desk.ListOutboxAsync(OutboxParts.Stopped, from, PageSize, cancel))
                .ConfigureAwait(false);
            found.AddRange(page.Items.Select(line => (line.Exam, line.Version)));
            after = page.Next;
        } while (after is not null);

        return found;
    }
}
