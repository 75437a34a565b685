using PupilBridge.Exams.Entries.Codec;

namespace PupilBridge.Exams.Entries.Sealing;

/// <summary>
/// What of each kind of entry is sealed: everything that says or may say who a patient is. The readings, judgements and times beside it
/// stay open, and stand for nobody once the keys are gone.
/// </summary>
internal static class SealedFields
{
    private static readonly SealedField PatientNumber = Number<PatientEntered>(
        1,
        e => e.Patient,
        (e, p) => e with { Patient = p }
    );

    private static readonly SealedField PatientIs = new SecretField<PatientEntered>(
        2,
        e => [e.Patient],
        PersonFormats.WriteDetails,
        e => e with { Details = null },
        static (PatientEntered e, ref EntryReader r) => e with { Details = PersonFormats.ReadDetails(ref r) }
    );

    private static readonly SealedField OpenedFor = Number<ExamOpened>(
        1,
        e => e.Patient!.Value,
        (e, p) => e with { Patient = p }
    );
    private static readonly SealedField AttachedTo = Number<ExamAttached>(
        1,
        e => e.Patient,
        (e, p) => e with { Patient = p }
    );
    private static readonly SealedField MovedTo = Number<ExamMoved>(
        1,
        e => e.Patient,
        (e, p) => e with { Patient = p }
    );
    private static readonly SealedField AttachedWhy = Text<ExamAttached>(
        e => e.Reason,
        (e, t) => e with { Reason = t }
    );
    private static readonly SealedField MovedWhy = Text<ExamMoved>(e => e.Reason, (e, t) => e with { Reason = t });
    private static readonly SealedField SplitWhy = Text<ExamSplit>(e => e.Reason, (e, t) => e with { Reason = t });
    private static readonly SealedField Note = Text<NoteEntered>(e => e.Text, (e, t) => e with { Text = t });
    private static readonly SealedField WithdrawnWhy = Text<EntryWithdrawn>(
        e => e.Reason,
        (e, t) => e with { Reason = t }
    );
    private static readonly SealedField AsideWhy = Text<ExamSetAside>(e => e.Reason, (e, t) => e with { Reason = t });
    private static readonly SealedField AmendedWhy = Text<AmendmentBegun>(
        e => e.Reason,
        (e, t) => e with { Reason = t }
    );
    private static readonly SealedField SentWhy = Text<RecordSent>(e => e.Reason, (e, t) => e with { Reason = t });
    private static readonly SealedField DecidedWhy = Text<SendingDecided>(
        e => e.Reason,
        (e, t) => e with { Reason = t }
    );

    private static readonly SealedField Record = new SecretField<ExamSigned>(
        3,
        static _ => [],
        static (w, e) =>
        {
            w.Text(e.Record!);
            w.OptionalText(e.Reason);
        },
        static e => e with { Record = null, Reason = null },
        static (ExamSigned e, ref EntryReader r) => e with { Record = r.Text(), Reason = r.OptionalText() }
    );

    private static readonly SealedField Kept = Number<PatientsMerged>(1, e => e.Kept, (e, p) => e with { Kept = p });
    private static readonly SealedField Merged = Number<PatientsMerged>(
        2,
        e => e.Merged,
        (e, p) => e with { Merged = p }
    );

    private static readonly SealedField MergedWhy = Text<PatientsMerged>(
        e => e.Reason,
        (e, t) => e with { Reason = t },
        static e => [e.Kept, e.Merged]
    );

    private static readonly SealedField PartedKept = Number<PatientsParted>(
        1,
        e => e.Kept!.Value,
        (e, p) => e with { Kept = p }
    );
    private static readonly SealedField PartedMerged = Number<PatientsParted>(
        2,
        e => e.Merged!.Value,
        (e, p) => e with { Merged = p }
    );

    private static readonly SealedField PartedWhy = Text<PatientsParted>(
        e => e.Reason,
        (e, t) => e with { Reason = t },
        static e => e.Kept is { } kept && e.Merged is { } merged ? [kept, merged] : []
    );

    /// <summary>The things in an entry that are to be sealed, by their numbers.</summary>
    /// <param name="entry">The entry, whole or without them.</param>
    public static IReadOnlyList<SealedField> Of(JournalEntry entry) =>
        entry switch
        {
            PatientEntered e => e.Details is null ? [PatientNumber] : [PatientNumber, PatientIs],
            ExamOpened e => e.Patient is null ? [] : [OpenedFor],
            ExamAttached e => With(AttachedTo, AttachedWhy, e.Reason),
            ExamMoved e => With(MovedTo, MovedWhy, e.Reason),
            ExamSplit e => If(SplitWhy, e.Reason),
            NoteEntered e => If(Note, e.Text),
            EntryWithdrawn e => If(WithdrawnWhy, e.Reason),
            ExamSetAside e => If(AsideWhy, e.Reason),
            ExamSigned e => If(Record, e.Record),
            AmendmentBegun e => If(AmendedWhy, e.Reason),
            RecordSent e => If(SentWhy, string.IsNullOrEmpty(e.Reason) ? null : e.Reason),
            SendingDecided e => If(DecidedWhy, e.Reason),
            PatientsMerged e => e.Reason is null ? [Kept, Merged] : [Kept, Merged, MergedWhy],
            PatientsParted e => [.. PartedNumbers(e), .. If(PartedWhy, e.Reason)],
            DayListEntered e => [.. e.Items.Items.Select((_, item) => DayListItem(item))],
            _ => [],
        };

    /// <summary>One thing that is sealed in entries of a kind, by its number.</summary>
    /// <param name="entry">The entry without its sealed things.</param>
    /// <param name="number">The number.</param>
    /// <exception cref="FormatException">Such entries have none of that number.</exception>
    public static SealedField Find(JournalEntry entry, int number) =>
        (entry, number) switch
        {
            (PatientEntered, 1) => PatientNumber,
            (PatientEntered, 2) => PatientIs,
            (ExamOpened { Patient: not null }, 1) => OpenedFor,
            (ExamAttached, 1) => AttachedTo,
            (ExamAttached, 3) => AttachedWhy,
            (ExamMoved, 1) => MovedTo,
            (ExamMoved, 3) => MovedWhy,
            (ExamSplit, 3) => SplitWhy,
            (NoteEntered, 3) => Note,
            (EntryWithdrawn, 3) => WithdrawnWhy,
            (ExamSetAside, 3) => AsideWhy,
            (ExamSigned, 3) => Record,
            (AmendmentBegun, 3) => AmendedWhy,
            (RecordSent, 3) => SentWhy,
            (SendingDecided, 3) => DecidedWhy,
            (PatientsMerged, 1) => Kept,
            (PatientsMerged, 2) => Merged,
            (PatientsMerged, 3) => MergedWhy,
            (PatientsParted { Kept: not null }, 1) => PartedKept,
            (PatientsParted { Merged: not null }, 2) => PartedMerged,
            (PatientsParted, 3) => PartedWhy,
            (DayListEntered list, var item) when item >= 1 && item <= list.Items.Count => DayListItem(item - 1),
            _ => throw new FormatException($"nothing of the number {number} is sealed in entries of its kind"),
        };

    private static NumberField<T> Number<T>(int number, Func<T, PatientId> get, Func<T, PatientId, T> set)
        where T : JournalEntry => new(number, get, set);

    private static SecretField<T> Text<T>(
        Func<T, string?> get,
        Func<T, string?, T> set,
        Func<T, IReadOnlyList<PatientId>>? of = null
    )
        where T : JournalEntry =>
        new(
            3,
            of ?? (static _ => []),
            (w, e) => w.Text(get(e)!),
            e => set(e, null),
            (T e, ref EntryReader r) => set(e, r.Text())
        );

    private static NumberField<DayListEntered> DayListItem(int item) =>
        new(
            item + 1,
            e => e.Items[item].Patient,
            (e, p) => e with { Items = e.Items.SetItem(item, e.Items[item] with { Patient = p }) }
        );

    private static IReadOnlyList<SealedField> With(SealedField number, SealedField text, string? value) =>
        value is null ? [number] : [number, text];

    private static IReadOnlyList<SealedField> If(SealedField text, string? value) => value is null ? [] : [text];

    private static IReadOnlyList<SealedField> PartedNumbers(PatientsParted e) =>
        (e.Kept, e.Merged) switch
        {
            (null, null) => [],
            (not null, null) => [PartedKept],
            (null, not null) => [PartedMerged],
            _ => [PartedKept, PartedMerged],
        };
}
