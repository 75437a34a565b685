using System.CommandLine;
using PupilBridge.Clinic.Views;
using PupilBridge.CommandLine;
using PupilBridge.Desk;

namespace PupilBridge.Verbs.Entering;

/// <summary>Which exam an entry is about: the one named, or the one that is open.</summary>
internal sealed class ExamChoice
{
    /// <summary>The option that names it.</summary>
    public Option<long?> Option { get; } =
        new("--exam") { Description = "The exam's number. Without it: the one exam that is open.", HelpName = "N" };

    /// <summary>The exam's number.</summary>
    /// <param name="call">The invocation.</param>
    /// <param name="access">The desk.</param>
    /// <param name="cancel">Gives up.</param>
    /// <returns>The number; whether there is such an exam, the desk says.</returns>
    /// <exception cref="CommandFailure">None was named, and not exactly one is open.</exception>
    public async Task<long> ResolveAsync(Call call, DeskAccess access, CancellationToken cancel)
    {
        if (call.Get(Option) is { } named)
        {
            return named;
        }

        var open = await access
            .AskAsync(desk => desk.ListExamsAsync(new ExamListRequest { Status = "open", Limit = 20 }, cancel))
            .ConfigureAwait(false);
        return open.Exams switch
        {
            [var only] => only.Exam,
            [] => throw new CommandFailure(
                ExitCode.NotFound,
                "No exam is open.",
                "Name an exam with --exam N; 'pupilbridge exams list' shows them."
            ),
            var several => throw new CommandFailure(
                ExitCode.Refused,
                $"{several.Count} exams are open: {string.Join(", ", several.Select(Named))}.",
                "Name the one that is meant with --exam N."
            ),
        };
    }

    private static string Named(ExamSummary exam) =>
        $"{exam.Exam} ({exam.Patient ?? "no patient yet"}, instrument {exam.Instrument})";
}
