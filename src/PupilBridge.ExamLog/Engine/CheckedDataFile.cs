namespace PupilBridge.ExamLog;

/// <summary>
/// The engine's data file: each page is compared with its check sum when it is read and summed when it is written. So a start need not
/// read the whole file, and what rots under a running service is found at its next reading.
/// </summary>
/// <remarks>Only <see cref="PageSums"/> is shared with others.</remarks>
internal sealed class CheckedDataFile(ExamLogFolder folder, PageSums sums)
    : PageFile(folder.DataFile, EngineFile.Data, folder.Pages)
{
    protected override void Reading(long page, ReadOnlySpan<byte> block) => sums.Check(page, block);

    protected override void Writing(long page, ReadOnlySpan<byte> block) => sums.Wrote(page, block);
}
