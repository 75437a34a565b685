namespace PupilBridge.ExamLog;

/// <summary>
/// How the engine's pages stand in its files: one block for each page, in their order. Safe from any thread.
/// </summary>
internal abstract class PageForm
{
    /// <summary>The pages as the engine gives them.</summary>
    public static PageForm Plain { get; } = new PlainPages();

    /// <summary>The size of a block.</summary>
    public abstract int BlockBytes { get; }

    /// <summary>Makes the block of a page.</summary>
    /// <param name="file">Which file it stands in.</param>
    /// <param name="index">Its place in that file.</param>
    /// <param name="page">The page.</param>
    /// <param name="block">Takes the block.</param>
    public abstract void Store(EngineFile file, long index, ReadOnlySpan<byte> page, Span<byte> block);

    /// <summary>Reads the page out of a block.</summary>
    /// <exception cref="InvalidDataException">It is not what was stored in this place of this file.</exception>
    public abstract void Load(EngineFile file, long index, ReadOnlySpan<byte> block, Span<byte> page);

    private sealed class PlainPages : PageForm
    {
        public override int BlockBytes => EnginePages.PageBytes;

        public override void Store(EngineFile file, long index, ReadOnlySpan<byte> page, Span<byte> block) =>
            page.CopyTo(block);

        public override void Load(EngineFile file, long index, ReadOnlySpan<byte> block, Span<byte> page) =>
            block.CopyTo(page);
    }
}

/// <summary>The engine's files.</summary>
internal enum EngineFile
{
    /// <summary>The data file.</summary>
    Data = 1,

    /// <summary>The engine's log.</summary>
    Log = 2,
}
