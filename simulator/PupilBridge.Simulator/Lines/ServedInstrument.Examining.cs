using PupilBridge.Simulator.Examiners;

namespace PupilBridge.Simulator.Lines;

/// <content>An examiner at the instrument, who speaks and may leave.</content>
public sealed partial class ServedInstrument
{
    /// <summary>Lets an exam go on to its end.</summary>
    /// <param name="next">The exam, at this instrument.</param>
    /// <param name="voice">Takes down what the examiner says.</param>
    /// <param name="allRecorded">
    /// Waits until all that the instrument told so far is recorded; null waits until a host has acknowledged it.
    /// </param>
    /// <param name="cancel">Ends it early: the examiner leaves, and the instrument stays as it stands.</param>
    /// <returns>Done when the examiner is through.</returns>
    public async Task ExamineAsync(
        SimulatedExam next,
        IExaminerVoice voice,
        Func<CancellationToken, ValueTask>? allRecorded,
        CancellationToken cancel
    )
    {
        ArgumentNullException.ThrowIfNull(next);
        ArgumentNullException.ThrowIfNull(voice);
        allRecorded ??= WhenAllAcknowledgedAsync;
        lock (gate)
        {
            exam = next;
        }

        try
        {
            await HearOutAsync(next, voice, allRecorded, cancel).ConfigureAwait(false);
        }
        catch (OperationCanceledException)
        {
            Leave(next);
            throw;
        }
    }

    private async Task HearOutAsync(
        SimulatedExam next,
        IExaminerVoice voice,
        Func<CancellationToken, ValueTask> allRecorded,
        CancellationToken cancel
    )
    {
        var isThrough = false;
        while (!isThrough)
        {
            var judgement = await spoken.Reader.ReadAsync(cancel).ConfigureAwait(false);
            await allRecorded(cancel).ConfigureAwait(false);
            await voice.SayAsync(judgement, cancel).ConfigureAwait(false);
            lock (gate)
            {
                announced = null;
                next.Said();
                isThrough = judgement is SpokenJudgement.Ready;
            }
        }

        await UntilAsync(() => next.IsFinished, cancel).ConfigureAwait(false);
    }

    /// <summary>The examiner leaves in the middle: the instrument lives on as it stands, and nobody acts on it.</summary>
    private void Leave(SimulatedExam left)
    {
        lock (gate)
        {
            if (exam == left)
            {
                exam = null;
                announced = null;
                while (spoken.Reader.TryRead(out _)) { }
            }
        }
    }
}
