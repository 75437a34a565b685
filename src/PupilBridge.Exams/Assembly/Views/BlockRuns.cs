using System.Collections.Immutable;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Profiles;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Assembly.Views;

/// <summary>
/// One run of a block: stimuli from its beginning until it reached its count, and on until the dial left it. A run that was
/// left before it reached its count goes on when the block comes again; a run after one that reached it is a repeat.
/// </summary>
/// <param name="Block">The block.</param>
/// <param name="Number">Which run of the block, from 1; from 2 on a repeat.</param>
/// <param name="Right">Complete stimuli of the right eye.</param>
/// <param name="Left">Complete stimuli of the left eye.</param>
/// <param name="Alternations">
/// Swinging: alternations in the longest unbroken chain, an alternation being one stimulus in each eye; 0 for other blocks.
/// </param>
/// <param name="HasReachedCount">Whether it has as many stimuli, or alternations, as the profile asks for.</param>
/// <param name="IsTimely">Whether all stimuli that count were surely within the tolerance.</param>
/// <param name="WasInterrupted">Whether it was left and taken up again before it reached its count.</param>
/// <param name="First">The entry of its first lamp going on.</param>
/// <param name="Last">The entry of its last one.</param>
public sealed record BlockRun(
    Block Block,
    int Number,
    int Right,
    int Left,
    int Alternations,
    bool HasReachedCount,
    bool IsTimely,
    bool WasInterrupted,
    JournalSequence First,
    JournalSequence Last
);

/// <summary>The runs of an exam's blocks.</summary>
public static class BlockRuns
{
    private static readonly ImmutableArray<Block> Trains = [Block.Direct, Block.SwingShort, Block.SwingLong];

    /// <summary>All runs, in the order of the blocks and within a block in their own.</summary>
    /// <param name="exam">The exam.</param>
    /// <returns>The runs; stops of the dial that were merely passed are none.</returns>
    public static ImmutableArray<BlockRun> Of(Exam exam)
    {
        ArgumentNullException.ThrowIfNull(exam);
        return [.. Trains.SelectMany(block => Of(exam, block))];
    }

    /// <summary>The runs of one block.</summary>
    /// <param name="exam">The exam.</param>
    /// <param name="block">The block.</param>
    /// <returns>Its runs, in order.</returns>
    public static ImmutableArray<BlockRun> Of(Exam exam, Block block)
    {
        ArgumentNullException.ThrowIfNull(exam);
        return
        [
            .. exam
                .Stimuli.Where(s => s.Block == block && s.Run > 0)
                .GroupBy(s => s.Run)
                .OrderBy(run => run.Key)
                .Select(run => Make(exam.Profile, block, run.Key, [.. run]))
                .Where(run => run.Right + run.Left > 0),
        ];
    }

    /// <summary>The number of the run that a stimulus of a block belongs to if it begins now.</summary>
    internal static int NextRun(Exam exam, Block block, long stay)
    {
        var last = exam.Stimuli.LastOrDefault(s => s.Block == block && s.Run > 0);
        if (last is null)
            return 1;
        if (last.Stay == stay)
            return last.Run;
        var run = Make(
            exam.Profile,
            block,
            last.Run,
            [.. exam.Stimuli.Where(s => s.Block == block && s.Run == last.Run)]
        );
        return run.HasReachedCount ? last.Run + 1 : last.Run;
    }

    private static BlockRun Make(Profile profile, Block block, int number, ImmutableArray<Stimulus> stimuli)
    {
        var complete = stimuli.Where(s => s.End == StimulusEnd.Complete).ToImmutableArray();
        var right = complete.Count(s => s.Eye == Eye.Right);
        var left = complete.Length - right;
        var chain = block == Block.Direct ? complete : LongestChain(stimuli);
        var alternations = block == Block.Direct ? 0 : chain.Length / 2;
        var reached = block switch
        {
            Block.Direct => Math.Min(right, left) >= profile.Direct.StimuliPerEye,
            Block.SwingShort => alternations >= profile.SwingShort.Alternations,
            Block.SwingLong => alternations >= profile.SwingLong.Alternations,
            _ => false,
        };
        return new(
            block,
            number,
            right,
            left,
            alternations,
            reached,
            chain.Length > 0 && chain.All(s => s.DwellVerdict == TimingVerdict.Within),
            stimuli.Select(s => s.Stay).Distinct().Skip(1).Any(),
            stimuli[0].On.Sequence,
            stimuli[^1].On.Sequence
        );
    }

    /// <summary>
    /// The longest chain of complete stimuli that go from eye to eye without a break: in one stay of the dial, no gap longer
    /// than the profile allows.
    /// </summary>
    private static ImmutableArray<Stimulus> LongestChain(ImmutableArray<Stimulus> stimuli)
    {
        var longest = ImmutableArray<Stimulus>.Empty;
        var chain = ImmutableArray.CreateBuilder<Stimulus>();
        foreach (var stimulus in stimuli)
        {
            if (chain.Count > 0 && !Continues(chain[^1], stimulus))
                chain.Clear();
            if (stimulus.End == StimulusEnd.Complete)
                chain.Add(stimulus);
            else
                chain.Clear();
            if (chain.Count > longest.Length)
                longest = chain.ToImmutable();
        }

        return longest;
    }

    // A gap is known, and judged, only within one stay.
    private static bool Continues(Stimulus before, Stimulus next) =>
        before.Eye != next.Eye && next.GapVerdict is TimingVerdict.Within or TimingVerdict.CannotTell;
}
