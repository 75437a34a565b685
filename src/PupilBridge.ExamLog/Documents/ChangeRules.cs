namespace PupilBridge.ExamLog;

/// <summary>Refuses changes that could not be found again, before anything of them is written.</summary>
internal static class ChangeRules
{
    /// <summary>Looks at every document.</summary>
    /// <exception cref="ArgumentException">A document has no usable key, or stands twice.</exception>
    public static void Require(ExamLogChanges changes)
    {
        Require(changes.Exams, ExamKind.Instance);
        Require(changes.Patients, PatientKind.Instance);
        Require(changes.Instruments, InstrumentKind.Instance);
        Require(changes.LookUps, LookUpKind.Instance);
        Require(changes.Outbox, OutboxKind.Instance);
    }

    private static void Require<T>(IReadOnlyCollection<T> documents, DocumentKind<T> kind)
    {
        var seen = new HashSet<string>(documents.Count, StringComparer.Ordinal);
        foreach (var document in documents)
        {
            kind.Refuse(document);
            if (!seen.Add(kind.IdOf(document)))
            {
                throw new ArgumentException($"The changes hold '{kind.IdOf(document)}' twice in '{kind.Collection}'.");
            }
        }
    }
}
