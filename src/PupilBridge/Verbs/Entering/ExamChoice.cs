using System.CommandLine;
using PupilBridge.Clinic.Views;
using PupilBridge.CommandLine;
using PupilBridge.Desk;

namespace PupilBridge.Verbs.Entering;

/// <summary>
/// Which exam an entry is about: the one named, or the one that is open. An exam that is over for its instrument stays open
/// until someone makes it ready; what is seen at the instrument now is not about that one.
/// </summary>
/// <param name="aboutNow">
/// Whether the entry says what is seen at the instrument now, so that of several open exams of one instrument the one that takes
/// its events is meant. Where an entry says whose an exam is, or that it is done, it may well be the earlier one: the person says.
/// </param>
internal sealed class ExamChoice(bool aboutNow = false)
{
    /// <summary>The option that names it.</summary>
    public Option<long?> Option { get; } =
        new("--exam")
        {
            Description = aboutNow
                ? "The exam's number. Without it: the one that is open; of several of one instrument, the one at work."
                : "The exam's number. Without it: the one exam that is open.",
            HelpName = "N",
        };

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
        if (aboutNow && open.Exams.Count > 1)
        {
            var lanes = await access.AskAsync(desk => desk.ListInstrumentsAsync(cancel)).ConfigureAwait(false);
            if (AtWork(open.Exams, lanes.Instruments) is { } atWork)
            {
                return atWork;
            }
        }

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

    /// <summary>The exam that takes events now, if all that are open were made with one and the same instrument.</summary>
    /// <param name="open">The open exams.</param>
    /// <param name="instruments">The instruments.</param>
    /// <returns>Its number; null where a person has to say.</returns>
    internal static long? AtWork(IReadOnlyList<ExamSummary> open, IReadOnlyList<InstrumentView> instruments) =>
        open.Select(exam => exam.Instrument).Distinct().ToList() is [var only]
        && instruments.FirstOrDefault(instrument => instrument.Instrument == only)?.OpenExam is { } exam
        && open.Any(one => one.Exam == exam)
            ? exam
            : null;

    private static string Named(ExamSummary exam) =>
        $"{exam.Exam} ({exam.Patient ?? "no patient yet"}, instrument {exam.Instrument})";
}
