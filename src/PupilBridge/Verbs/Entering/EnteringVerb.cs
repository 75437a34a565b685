using System.CommandLine;
using PupilBridge.Clinic.Entries;
using PupilBridge.CommandLine;
using PupilBridge.Desk;

namespace PupilBridge.Verbs.Entering;

/// <summary>A command by which a person enters something: it says who, sends, and tells where it stands.</summary>
internal abstract class EnteringVerb : Verb
{
    private readonly Option<bool> json = CommonOptions.Json("Print what was recorded as one JSON document.");

    protected EnteringVerb(string name, string description)
        : base(name, description)
    {
        Add(Typist.Option);
        Add(json);
        EndsWith(DeskAccess.Exits);
        Does(RunAsync);
    }

    /// <summary>Who enters it.</summary>
    protected Typist Typist { get; } = new();

    /// <summary>Makes the entries of this invocation.</summary>
    /// <param name="call">The invocation.</param>
    /// <param name="stamp">Who, when, under which version.</param>
    /// <param name="sending">The way to the desk, for questions.</param>
    /// <param name="cancel">Gives up.</param>
    /// <returns>The entries, in order.</returns>
    protected abstract Task<IReadOnlyList<DeskEntry>> EntriesAsync(
        Call call,
        EntryStamp stamp,
        EntrySending sending,
        CancellationToken cancel
    );

    /// <summary>What was entered, in a few words for the person.</summary>
    /// <param name="entry">The entry.</param>
    /// <returns>For example <c>direct OD 3</c>.</returns>
    protected abstract string Words(DeskEntry entry);

    /// <summary>What the number that comes back is called: an exam, if not a run on the bench.</summary>
    protected virtual string Sitting => "exam";

    private async Task<ExitCode> RunAsync(Call call, CancellationToken cancel)
    {
        var stamp = Typist.Stamp(call);
        var sending = await EntrySending.OpenAsync(call, cancel).ConfigureAwait(false);
        await using (sending.ConfigureAwait(false))
        {
            var done = new List<object>();
            foreach (var entry in await EntriesAsync(call, stamp, sending, cancel).ConfigureAwait(false))
            {
                var (sequence, exam) = await sending.SendAsync(entry, cancel).ConfigureAwait(false);
                done.Add(
                    new
                    {
                        Entered = Words(entry),
                        entry.EntryId,
                        Sequence = sequence,
                        Exam = exam,
                    }
                );
                if (!call.Get(json))
                {
                    var of = exam is null ? "" : $" in {Sitting} {exam}";
                    call.Print($"Recorded{of} as entry {sequence}: {Words(entry)}");
                }
            }

            if (call.Get(json))
            {
                call.PrintJson(done);
            }
        }

        return ExitCode.Done;
    }
}
