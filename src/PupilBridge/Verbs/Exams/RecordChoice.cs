using System.CommandLine;
using PupilBridge.Clinic.Outgoing;
using PupilBridge.Clinic.Views;
using PupilBridge.CommandLine;
using PupilBridge.Desk;

namespace PupilBridge.Verbs.Exams;

/// <summary>The record of one exam that a command writes: a signed version, or the draft while none is signed.</summary>
internal sealed class RecordChoice
{
    /// <summary>Which exam.</summary>
    public Argument<long> Exam { get; } = new("exam") { Description = "The exam's number." };

    /// <summary>Which version.</summary>
    public Option<int?> Version { get; } =
        new("--version")
        {
            Description = "A signed version; without it the latest signed one, or the draft while none is signed.",
            HelpName = "N",
        };

    /// <summary>Reads the record.</summary>
    /// <param name="call">The invocation.</param>
    /// <param name="cancel">Gives up.</param>
    /// <exception cref="CommandFailure">There is no such exam or version, or the desk cannot be asked.</exception>
    public async Task<OutgoingRecord> ReadAsync(Call call, CancellationToken cancel)
    {
        var (number, wanted) = (call.Get(Exam), call.Get(Version));
        var access = await DeskAccess.OpenAsync(call, cancel).ConfigureAwait(false);
        await using (access.ConfigureAwait(false))
        {
            var record = await access
                .AskOutgoingAsync(desk => desk.ShowOutgoingAsync(number, wanted, cancel))
                .ConfigureAwait(false);
            if (record is not null)
            {
                return record;
            }

            var exam = await access.AskAsync(desk => desk.ShowExamAsync(number, cancel)).ConfigureAwait(false);
            throw exam?.Erasure is { } erasure ? Erased(number, erasure)
            : wanted is { } version ? NoSuchVersion(number, version)
            : ExamsShowVerb.NoSuchExam(number);
        }
    }

    private static CommandFailure Erased(long number, ErasureView erasure) =>
        new(
            ExitCode.NotFound,
            $"Exam {number} has no record any more. {erasure.Words}",
            $"'pupilbridge exams show {number}' shows the readings, which stand for nobody."
        );

    private static CommandFailure NoSuchVersion(long number, int version) =>
        new(
            ExitCode.NotFound,
            $"Exam {number} has no signed version {version}, or its text has been erased.",
            $"'pupilbridge exams show {number}' shows how it stands."
        );
}
