using PupilBridge.Exams.Entries.Sealing;

namespace PupilBridge.Clinic.Audit;

/// <summary>
/// Which notes a search is about. A key belongs to one number, so each number is opened once in a search and not in every note.
/// </summary>
/// <param name="search">The search.</param>
/// <param name="keys">The keys of what is sealed.</param>
internal sealed class AuditFilter(AuditSearch search, ISubjectKeys keys)
{
    private readonly Dictionary<KeySlot, string> numbers = [];

    /// <summary>Whether a note is among them.</summary>
    public bool Fits(AuditRecord record) =>
        (search.From is not { } from || record.Note.At >= from)
        && (search.Before is not { } before || record.Note.At < before)
        && (search.Person is not { Length: > 0 } person || IsAbout(record.Note, person))
        && (search.Patient is not { Length: > 0 } patient || Names(record, patient));

    private static bool IsAbout(AuditNote note, string person) =>
        note.Who.Equals(person, StringComparison.OrdinalIgnoreCase)
        || person.Equals(note.Subject, StringComparison.OrdinalIgnoreCase);

    private bool Names(AuditRecord record, string patient) =>
        record.Numbers is { } noted
            ? noted.Any(number => NumberOf(number, record).Equals(patient, StringComparison.OrdinalIgnoreCase))
            : record.Note.Patients.Contains(patient, StringComparer.OrdinalIgnoreCase)
                || patient.Equals(record.Note.Asked, StringComparison.OrdinalIgnoreCase);

    private string NumberOf(NotedNumber noted, AuditRecord record)
    {
        if (noted.Slot is not { } slot)
        {
            return NotedNumbers.Open(noted, record.Before.Span, keys);
        }

        if (!numbers.TryGetValue(slot, out var number))
        {
            number = NotedNumbers.Open(noted, record.Before.Span, keys);
            // One that is damaged says nothing of the others.
            if (number != SealedNumbers.Unreadable(slot).Value)
            {
                numbers[slot] = number;
            }
        }

        return number;
    }
}
