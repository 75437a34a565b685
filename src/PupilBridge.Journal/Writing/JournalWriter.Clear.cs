namespace PupilBridge.Journal;

// Going on in the clear after encrypted segments: not without a record under the key that says so.
public sealed partial class JournalWriter
{
    private StoredForm _predecessorForm;
    private bool _isToAnnounceClear;

    /// <summary>
    /// Writes an encrypted segment of one record, which says that the journal goes on in the clear. It is durable before the first segment in the
    /// clear is made. Cut off before that, the next start finds no such segment and says it again; cut off after, it finds the record and goes on.
    /// Where it fails, the commit fails, and the next one tries it anew.
    /// </summary>
    private void AnnounceClear()
    {
        SegmentWriter segment = OpenEncrypted();
        var word = new RecordBatch();
        word.Add(RecordClass.Notice, JournalNotice.ClearFollows.Encode());
        JournalPosition after = word.Seal(Durable, segment.Cipher);
        segment.WriteDurably(word.Bytes);
        (Durable, _isToAnnounceClear, _segment) = (after, false, null);
        segment.TrimAndClose();
    }
}
