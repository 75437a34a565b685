using System.CommandLine;
using PupilBridge.CommandLine;
using PupilBridge.Desk;

namespace PupilBridge.Verbs.Exams;

/// <summary><c>exams show</c>: one exam whole, every finding with its raw reading.</summary>
internal sealed class ExamsShowVerb : Verb
{
    private readonly Argument<long> exam = new("exam") { Description = "The exam's number." };
    private readonly Option<bool> json = CommonOptions.Json();

    public ExamsShowVerb()
        : base("show", "Shows one exam whole: sizes with their raw readings, judgements, stimuli, what is missing.")
    {
        Add(exam);
        Add(json);
        Example("pupilbridge exams show 42", "shows exam 42");
        Example("pupilbridge exams show 42 --json", "the same for a program");
        EndsWith(DeskAccess.Exits);
        Does(ShowAsync);
    }

    private async Task<ExitCode> ShowAsync(Call call, CancellationToken cancel)
    {
        var number = call.Get(exam);
        var access = await DeskAccess.OpenAsync(call, cancel).ConfigureAwait(false);
        await using (access.ConfigureAwait(false))
        {
            var view =
                await access.AskAsync(desk => desk.ShowExamAsync(number, cancel)).ConfigureAwait(false)
                ?? throw NoSuchExam(number);
            if (call.Get(json))
            {
                call.PrintJson(view);
            }
            else
            {
                ExamText.Print(call, view);
            }
        }

        return ExitCode.Done;
    }

    internal static CommandFailure NoSuchExam(long number) =>
        new(ExitCode.NotFound, $"There is no exam {number}.", "'pupilbridge exams list' shows those that there are.");
}
