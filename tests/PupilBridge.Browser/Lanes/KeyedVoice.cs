using System.Globalization;
using PupilBridge.Instrument;
using PupilBridge.Simulator.Examiners;
using PupilBridge.Simulator.Eyes;
using PupilBridge.Simulator.Lines;
using static PupilBridge.Simulator.Examiners.SpokenJudgement;

namespace PupilBridge.Browser.Lanes;

/// <summary>
/// Presses the keys of the lane for what a simulated examiner judges, when the lane asks for it. Both shapes are one key, as for a
/// person who looks at both pupils at once.
/// </summary>
/// <param name="lane">The lane's page.</param>
public sealed class KeyedVoice(LanePage lane) : IExaminerVoice
{
    /// <summary>The consensual response is optional: if the lane does not offer it within this time, it is put off, and tried again later.</summary>
    private static readonly TimeSpan ConsensualPatience = TimeSpan.FromSeconds(3);

    private readonly List<ShapeSeen> shapes = [];
    private readonly List<LightGraded> putOff = [];
    private readonly List<SpokenJudgement> entered = [];

    /// <summary>What was entered by key.</summary>
    public IReadOnlyList<SpokenJudgement> Entered => entered;

    /// <summary>
    /// Asked before each judgement is entered, and done with it if it answers true; of an optional one, each time that its
    /// question was opened. Tests put here what happens in the middle of an exam.
    /// </summary>
    public Func<SpokenJudgement, Task<bool>>? Instead { get; init; }

    /// <summary>Whether the optional consensual response is entered.</summary>
    public bool SpeaksConsensual { get; init; } = true;

    /// <summary>Whether Enter is pressed at the end; if not, the exam is left as it is.</summary>
    public bool MakesReady { get; init; } = true;

    /// <inheritdoc/>
    public async ValueTask SayAsync(SpokenJudgement judgement, CancellationToken cancel)
    {
        if (judgement is LightGraded light && light.Lit != light.Observed)
        {
            if (SpeaksConsensual && !await ConsensualAsync(light).ConfigureAwait(false))
                putOff.Add(light);
            return;
        }

        if (judgement is Ready)
            await CatchUpAsync().ConfigureAwait(false);
        entered.Add(judgement);
        if (Instead is not null && await Instead(judgement).ConfigureAwait(false))
            return;
        await EnterAsync(judgement).ConfigureAwait(false);
        await CatchUpAsync().ConfigureAwait(false);
    }

    /// <summary>The key for an eye that is worse than the other, or for both alike.</summary>
    public static string Key(Eye? worse) =>
        worse switch
        {
            Eye.Right => "7",
            Eye.Left => "9",
            _ => "8",
        };

    private async Task EnterAsync(SpokenJudgement judgement)
    {
        switch (judgement)
        {
            case ShapeSeen shape:
                shapes.Add(shape);
                if (shapes.Count == 2)
                    await ShapesAsync().ConfigureAwait(false);
                break;
            case LightGraded light:
                await GradeAsync("grade-direct", light.Lit, light.Grade).ConfigureAwait(false);
                break;
            case SwingSeen swing:
                await SwingAsync(swing).ConfigureAwait(false);
                break;
            case NearGraded near:
                await GradeAsync("grade-near", near.Eye, near.Grade).ConfigureAwait(false);
                break;
            case Ready when MakesReady:
                await ReadyAsync().ConfigureAwait(false);
                break;
            default:
                break;
        }
    }

    // The sequence runs on while the optional question stands open, and what becomes due then takes its place. As a person would, the
    // voice enters what is due first and opens the question again afterwards.
    private async Task<bool> ConsensualAsync(LightGraded light)
    {
        bool IsIt(LaneQuestion asked) => Is(asked, "grade-consensual", light.Lit);
        if (!await lane.OpenOptionalAsync(IsIt, ConsensualPatience).ConfigureAwait(false))
            return false;
        if (Instead is null || !await Instead(light).ConfigureAwait(false))
            if (!await lane.AnswerOptionalAsync(Digit(light.Grade), IsIt).ConfigureAwait(false))
                return false;
        entered.Add(light);
        return true;
    }

    private async Task CatchUpAsync()
    {
        foreach (var light in putOff.ToArray())
            if (await ConsensualAsync(light).ConfigureAwait(false))
                putOff.Remove(light);
    }

    private async Task ShapesAsync()
    {
        var notRound = shapes.Where(s => s.Shape != PupilShape.Round).Select(s => s.Eye).ToArray();
        var key = notRound.Length == 2 ? "6" : Key(notRound.Length == 1 ? notRound[0] : null);
        await lane.AnswerAsync(key, asked => asked.Accepts == "shape" && asked.Eye == "-", "are both pupils round")
            .ConfigureAwait(false);
    }

    private Task GradeAsync(string what, Eye eye, int grade) =>
        lane.AnswerAsync(Digit(grade), asked => Is(asked, what, eye), $"{what} {eye}");

    private static string Digit(int grade) => grade.ToString(CultureInfo.InvariantCulture);

    private static bool Is(LaneQuestion asked, string what, Eye eye) =>
        asked.Accepts == "grade" && asked.What == what && asked.Eye == (eye == Eye.Right ? "OD" : "OS");

    private Task SwingAsync(SwingSeen swing)
    {
        var what = swing.Block == Block.SwingShort ? "which-constricts-less" : "which-lets-go";
        return lane.AnswerAsync(Key(swing.Affected), asked => asked.Accepts == "swing" && asked.What == what, what);
    }

    private async Task ReadyAsync()
    {
        var asked = await lane.UntilAskedAsync(a => a.Accepts == "ready", "ready for review").ConfigureAwait(false);
        await lane.PressAsync("Enter").ConfigureAwait(false);
        await lane.UntilAskedAsync(now => now.Key != asked.Key, "anything after the exam was made ready")
            .ConfigureAwait(false);
    }
}
