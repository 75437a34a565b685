using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;
using PupilBridge.Worker.Live;

namespace PupilBridge.Clinic.Tests.Lanes;

/// <summary>What the board tells of the line, of a restart and of what went wrong.</summary>
public sealed class LaneBoardLineTests : IDisposable
{
    private readonly LaneScene lane = new();

    [Theory]
    [InlineData(true, false, LineState.Connected, "connected", "Connected")]
    [InlineData(false, false, LineState.Lost, "lost", "Check the cable")]
    [InlineData(false, false, LineState.Stalled, "stalled", "says nothing")]
    [InlineData(true, true, LineState.Connected, "off", "switched off")]
    [InlineData(false, true, LineState.Lost, "off", "switched off")]
    public async Task The_line_is_told_in_a_word_and_with_what_to_do(
        bool isConnected,
        bool isOff,
        LineState state,
        string word,
        string words
    )
    {
        lane.Clinic.House.Add(lane.Instrument.Line(state));
        if (isOff)
        {
            lane.Clinic.House.Add(lane.Instrument.SwitchOff());
        }

        lane.Show(live => live with { IsConnected = isConnected });

        var board = await lane.LookAsync();

        Assert.Equal(word, board.Line);
        Assert.Contains(words, board.LineWords, StringComparison.Ordinal);
        var listed = Assert.Single((await lane.Clinic.Desk.ListInstrumentsAsync(default)).Instruments);
        Assert.Equal(word, listed.Line);
    }

    [Fact]
    public async Task An_instrument_that_started_anew_is_off_no_more()
    {
        lane.Clinic.House.Add(lane.Instrument.SwitchOff());

        lane.Show(live => live with { Boot = new BootNumber(0xB008) });

        Assert.Equal("connected", (await lane.LookAsync()).Line);
    }

    [Fact]
    public async Task After_a_restart_of_the_service_the_lane_shows_the_same_exam_prompt_dial_and_light()
    {
        var exam = await lane.Clinic.OpenAsync();
        await lane.EnterAsync(lane.Clinic.Light(exam, "dim"));
        lane.Clinic.House.Add(lane.Instrument.Dial(InstrumentMode.Sequence, Block.Direct));
        lane.Clinic.House.Add(lane.Instrument.Light(Eye.Right, 1000, 3000));
        lane.Clinic.House.Add(lane.Instrument.Lamp(Eye.Left, true));
        lane.Show(live =>
            live with
            {
                Mode = new LiveMode(InstrumentMode.Sequence, Block.Direct, ModeCause.Dial, live.HeardAt),
            }
        );
        var before = await lane.LookAsync();

        // The journal's state is all that a service that has just started knows, until the instrument says something.
        lane.Clinic.House.Forget(Support.Clinic.Serial);
        var unseen = await lane.LookAsync();
        lane.Show(_ => lane.Instrument.Live());
        var after = await lane.LookAsync();

        Assert.Equal(("not-seen", "connected"), (unseen.Line, after.Line));
        foreach (var board in new[] { unseen, after })
        {
            Assert.Equal(before.Exam!.Prompt, board.Exam!.Prompt);
            Assert.Equal(exam, board.Exam.Exam);
            Assert.Equal(("sequence", "direct", "dim"), (board.Mode, board.Block, board.Room.Light));
            Assert.Equal((true, 1000), (board.Left.IsLit, board.Left.DwellWantedMilliseconds));
        }
    }

    [Fact]
    public async Task Trouble_is_told()
    {
        lane.Clinic.House.Trouble = "The disk is full.";

        Assert.Equal("The disk is full.", (await lane.LookAsync()).Trouble);
    }

    [Fact]
    public async Task Gaps_and_reminders_stand_in_words()
    {
        await lane.Clinic.OpenAsync();
        lane.Clinic.House.Add(lane.Instrument.Line(LineState.Lost));

        var exam = await lane.ExamAsync();

        Assert.Equal("The line was lost.", Assert.Single(exam.Gaps));
        Assert.Contains(exam.Reminders, reminder => reminder is { Kind: "light-not-said", IsUrgent: false });
        lane.Clinic.House.Add(lane.Instrument.Line(LineState.Connected));
        Assert.Equal("The line was lost.", Assert.Single((await lane.ExamAsync()).Gaps));
        lane.Clinic.House.Add(lane.Instrument.Line(LineState.Connected));
        Assert.Equal(["The line was lost.", "The line came back."], (await lane.ExamAsync()).Gaps);
    }

    public void Dispose() => lane.Dispose();
}
