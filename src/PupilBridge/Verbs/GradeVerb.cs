using System.CommandLine;
using PupilBridge.Clinic;
using PupilBridge.Clinic.Entries;
using PupilBridge.Clinic.Judging;
using PupilBridge.CommandLine;
using PupilBridge.Verbs.Entering;

namespace PupilBridge.Verbs;

/// <summary><c>grade</c>: enters a judgement.</summary>
internal sealed class GradeVerb : EnteringVerb
{
    private readonly ExamChoice exam = new(aboutNow: true);

    private readonly Argument<string[]> words = new("judgement")
    {
        Description = "What was judged: " + string.Join("; ", JudgementSyntax.Forms) + ".",
        Arity = ArgumentArity.OneOrMore,
        HelpName = "WORDS",
    };

    public GradeVerb()
        : base("grade", "Enters what was seen: a grade (0 none to 4 brisk and large), a shape, a swinging outcome.")
    {
        words.CompletionSources.Add(["shape", "direct", "consensual", "near", "swing", "slow-to-dilate"]);
        words.CompletionSources.Add([
            "OD",
            "OS",
            "both",
            "lit",
            "short",
            "long",
            "alike",
            "worse",
            "round",
            "not-round",
        ]);
        words.CompletionSources.Add(["could-not-see"]);
        Add(words);
        Add(exam.Option);
        Example("pupilbridge grade direct OD 3 --who MK", "the right pupil's own response to light, in the open exam");
        Example("pupilbridge grade swing long worse OS --exam 42 --who MK", "with the long dwell the left eye let go");
        Example("pupilbridge grade shape both round --who MK", "both pupils are round");
    }

    /// <inheritdoc/>
    protected override async Task<IReadOnlyList<DeskEntry>> EntriesAsync(
        Call call,
        EntryStamp stamp,
        EntrySending sending,
        CancellationToken cancel
    )
    {
        var line = string.Join(' ', call.Get(words)!);
        try
        {
            // Understood before anything is asked: a slip in the words costs nothing.
            JudgementSyntax.Read(line);
        }
        catch (EntryProblemException problem)
        {
            throw new CommandFailure(ExitCode.Usage, problem.Message, "See 'pupilbridge grade --help' for all forms.");
        }

        var about = await exam.ResolveAsync(call, sending.Access, cancel).ConfigureAwait(false);
        // No step was shown to the person here, so none is named.
        return DeskEntries.Judgements(line, stamp, about, Typist.NewId);
    }

    /// <inheritdoc/>
    protected override string Words(DeskEntry entry) => ((JudgementEntry)entry).Judgement;
}
