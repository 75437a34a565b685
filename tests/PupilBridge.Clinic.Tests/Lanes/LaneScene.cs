using PupilBridge.Clinic.Entries;
using PupilBridge.Clinic.Lanes;
using PupilBridge.Clinic.Views;
using PupilBridge.Instrument;
using PupilBridge.Worker.Live;

namespace PupilBridge.Clinic.Tests.Lanes;

/// <summary>A lane with one instrument, and its board as it is.</summary>
internal sealed class LaneScene : IDisposable
{
    public LaneScene(InstrumentAbilities abilities = InstrumentAbilities.MarkKeys, int backlog = 64)
    {
        Clinic = new Support.Clinic(backlog, abilities);
        Desk = new LaneDesk(Clinic.House, Clinic.Desk, TimeProvider.System);
        Live = Clinic.Instrument.Live();
        Show(live => live);
    }

    public Support.Clinic Clinic { get; }

    public LaneDesk Desk { get; }

    public LiveInstrument Live { get; private set; }

    public Support.ScriptedInstrument Instrument => Clinic.Instrument;

    /// <summary>The instrument changes live.</summary>
    public void Show(Func<LiveInstrument, LiveInstrument> change)
    {
        Live = change(Live);
        Clinic.House.Show(Live);
    }

    /// <summary>A live position.</summary>
    public void Slide(Eye eye, int micrometres, bool isMoving = true) =>
        Show(live =>
            live with
            {
                Scales = live.Scales.With(eye, new LiveScale(new Micrometres(micrometres), isMoving, Instrument.Now)),
            }
        );

    public async Task<LaneBoard> LookAsync() =>
        (await Desk.LookAtLaneAsync(Support.Clinic.Serial, CancellationToken.None))!;

    public async Task<LaneExam> ExamAsync() => (await LookAsync()).Exam!;

    public async Task<LanePrompt> PromptAsync() => (await ExamAsync()).Prompt;

    public async Task EnterAsync(DeskEntry entry) =>
        Assert.IsType<EntryOutcome.Recorded>(await Desk.EnterAsync(entry, CancellationToken.None));

    public async Task JudgeAsync(long exam, params string[] judgements)
    {
        foreach (var judgement in judgements)
        {
            await EnterAsync(Clinic.Judging(exam, judgement));
        }
    }

    /// <summary>An exam in which all but the judgements was done.</summary>
    public async Task<long> WithEverythingShownAsync()
    {
        var exam = await Clinic.OpenAsync();
        Clinic.House.Add(Instrument.Dial(InstrumentMode.Measure));
        await EnterAsync(Clinic.Light(exam, "bright"));
        Clinic.MeasureBoth();
        await EnterAsync(Clinic.Light(exam, "dim"));
        Clinic.MeasureBoth(5_000, 5_100);
        Clinic.House.Add(Instrument.DirectBlock());
        Clinic.House.Add(Instrument.SwingBlock(Block.SwingShort, 1000));
        Clinic.House.Add(Instrument.SwingBlock(Block.SwingLong, 3000));
        return exam;
    }

    public void Dispose() => Clinic.Dispose();
}
