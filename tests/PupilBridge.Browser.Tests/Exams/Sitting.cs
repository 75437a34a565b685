using System.Text.Json;
using PupilBridge.Browser.Lanes;
using PupilBridge.Browser.Records;
using PupilBridge.Scenarios.Service;
using PupilBridge.Simulator.Examiners;
using PupilBridge.Simulator.Scenarios;

namespace PupilBridge.Browser.Tests.Exams;

/// <summary>One patient at one lane, from the choice of the patient to the record.</summary>
public sealed class Sitting(ExamStage stage, SteeredLane lane, LanePage page, string patient)
{
    private static readonly TimeSpan LongestExam = TimeSpan.FromMinutes(5);
    private IReadOnlyList<SpokenJudgement> entered = [];

    /// <summary>The stage that it is on.</summary>
    public ExamStage Stage => stage;

    /// <summary>The instrument.</summary>
    public SteeredLane Lane => lane;

    /// <summary>The page before the examiner.</summary>
    public LanePage Page => page;

    /// <summary>The exam's number in the record.</summary>
    public long Number { get; private set; }

    /// <summary>The simulated exam, once it was begun.</summary>
    public SimulatedExam Exam { get; private set; } = null!;

    /// <summary>Chooses the patient; keys are counted from here.</summary>
    public async Task ChooseAsync()
    {
        var before = (await page.AskedAsync()).Exam;
        await page.ChoosePatientAsync(patient);
        Number = (
            await page.UntilAskedAsync(asked => asked.Exam > 0 && asked.Exam != before, $"a new exam for {patient}")
        ).Exam;
        page.CountAnew();
    }

    /// <summary>Examines to the end, or until it is cancelled.</summary>
    public async Task ExamineAsync(Scenario scenario, KeyedVoice voice, CancellationToken stop = default)
    {
        entered = voice.Entered;
        using var patience = CancellationTokenSource.CreateLinkedTokenSource(stop);
        patience.CancelAfter(LongestExam);
        Exam = lane.Seat(scenario);
        try
        {
            await lane.ExamineAsync(Exam, voice, patience.Token);
        }
        catch (OperationCanceledException) when (stop.IsCancellationRequested)
        {
            // Broken off, as the test wanted.
        }
    }

    /// <summary>The record, which must be right.</summary>
    public async Task<JsonElement> RecordAsync(string status = "ready-for-review")
    {
        var shown = await stage.ShowAsync(Number);
        Assert.Empty(RecordCheck.Compare(shown, Exam, patient, entered));
        Assert.Equal(status, shown.GetProperty("summary").GetProperty("status").GetString());
        Assert.Equal(lane.Serial.ToString(), shown.GetProperty("summary").GetProperty("instrument").GetString());
        return shown;
    }
}
