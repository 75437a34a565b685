using System.Collections.Immutable;
using PupilBridge.Instrument;

namespace PupilBridge.Simulator.Devices;

/// <summary>
/// Which block comes next in the mode <c>sequence</c>. Leaving it for <c>hold</c> and coming back goes on with the block
/// after the held one if that reached its count, else with the held one again; staying at any other stop starts over.
/// </summary>
/// <param name="blocks">The blocks in their order.</param>
internal sealed class SequenceOrder(ImmutableArray<Block> blocks)
{
    private Block next = blocks[0];

    /// <summary>The block with which the sequence goes on; none when it is through.</summary>
    public Block Next => next;

    /// <summary>A block of the sequence itself ended or was broken off.</summary>
    public void Ran(Block block, bool reachedCount) => next = reachedCount ? After(block) : block;

    /// <summary>A block was held until the dial moved on.</summary>
    public void Held(Block block, bool reachedCount)
    {
        // A held block that the sequence does not have (near on some models) leaves the order as it is.
        if (blocks.Contains(block))
        {
            Ran(block, reachedCount);
        }
    }

    public void StartOver() => next = blocks[0];

    private Block After(Block block)
    {
        var at = blocks.IndexOf(block);
        return at >= 0 && at + 1 < blocks.Length ? blocks[at + 1] : Block.None;
    }
}
