using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Entries.Sealing;
using PupilBridge.Worker.SubjectKeys;

namespace PupilBridge.Clinic.Audit;

/// <summary>
/// A note with the keys of the patients that it names. They are looked for before the note has its turn, since that reads files.
/// </summary>
internal sealed class AuditSealing
{
    private readonly AuditNote note;
    private readonly bool isSealed;
    private readonly NumberToNote? asked;
    private readonly IReadOnlyList<NumberToNote> shown = [];

    /// <summary>Looks for the keys.</summary>
    /// <param name="note">The note.</param>
    /// <param name="keysOf">Gives the keys.</param>
    /// <exception cref="IOException">A patient has no key yet and none can be made.</exception>
    /// <exception cref="InvalidOperationException">The keys are not open, or not any more.</exception>
    public AuditSealing(AuditNote note, Func<SubjectKeyStore?> keysOf)
    {
        this.note = note;
        if ((note.Patients.Count == 0 && note.Asked is null) || keysOf() is not { } keys)
        {
            return;
        }

        isSealed = true;
        shown = [.. note.Patients.Where(ShortText.IsValid).Select(number => keys.ToNote(new PatientId(number)))];
        asked = ShortText.IsValid(note.Asked) ? keys.ToNoteIfKnown(new PatientId(note.Asked!)) : null;
    }

    /// <summary>The record, with as many of the patients as fit into one.</summary>
    /// <param name="missed">How many notes before it could not be recorded.</param>
    /// <param name="most">The longest record, in bytes.</param>
    public byte[] ToBytes(int missed, int most)
    {
        var counted = note with { Missed = missed };
        for (var patients = note.Patients.Count; ; patients /= 2)
        {
            var bytes = isSealed
                ? AuditRecord.Sealed(counted, asked, [.. shown.Take(patients)])
                : AuditRecord.Open(counted with { Patients = [.. note.Patients.Take(patients)] });
            if (bytes.Length <= most || patients == 0)
            {
                return bytes;
            }
        }
    }
}
