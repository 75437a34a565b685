using PupilBridge.Clinic.Entries;
using PupilBridge.Clinic.Judging;
using PupilBridge.Exams.Entries;

namespace PupilBridge.Voyage.Model;

/// <content>What people entered, against what they were told of it.</content>
internal sealed partial class VoyageAudit
{
    private void CheckPeople(ErasureAudit erasures)
    {
        var places = new Dictionary<string, List<long>>(StringComparer.Ordinal);
        foreach (var (sequence, entry) in bySequence)
        {
            if (entry is not PersonEntry person)
                continue;
            world.Counts.EntriesOfPeople++;
            var id = person.Id.ToString();
            if (!places.TryGetValue(id, out var at))
                places[id] = at = [];
            at.Add(sequence);
        }

        foreach (var (id, at) in places.Where(p => p.Value.Count > 1))
        {
            // A copy that rot took is gone for the product, so that a repetition is the only one that can be read.
            if (at.Count(s => !world.Rotten.Records.ContainsKey(s)) > 1)
                problems.Add($"the entry {id} stands {at.Count} times in the journal, at {string.Join(", ", at)}");
        }

        foreach (var (id, (given, sequence)) in world.People.Recorded)
        {
            if (!places.TryGetValue(id, out var at) || !at.Contains(sequence))
                problems.Add($"{given.GetType().Name} {id} was told as recorded at {sequence}, and is not there");
            else if (
                bySequence[sequence] is PersonEntry found
                && Difference(given, found, pieces.GetValueOrDefault(sequence, []).Any(erasures.WasOrdered))
                    is { } difference
            )
                problems.Add($"{given.GetType().Name} {id} at {sequence}: {difference}");
        }

        foreach (var (id, given) in world.People.Refused)
        {
            // A signature that comes too late is recorded and does not count; its person is told that nothing is signed.
            if (places.ContainsKey(id) && given is not SignEntry)
                problems.Add($"{given.GetType().Name} {id} was told as refused, and is recorded");
        }
    }

    private string? Difference(DeskEntry given, PersonEntry found, bool isErased)
    {
        if (found.Who.Value != given.Who)
            return $"it is {found.Who}'s, and was {given.Who}'s";
        if (given is ExamDeskEntry about && (found as ExamEntry)?.Exam.Value != about.Exam)
            return $"it is about {(found as ExamEntry)?.Exam}, and was about {about.Exam}";
        // What is left of it is the erasures' matter.
        if (isErased)
            return given is ExamDeskEntry == found is ExamEntry ? null : "it is another kind of entry";
        var (said, is_) = (given, found) switch
        {
            (JudgementEntry g, JudgementEntered f) => (g.Judgement, JudgementSyntax.Write(f.Judgement)),
            (NoteEntry g, NoteEntered f) => (g.Text, f.Text),
            (PatientEntry g, PatientEntered f) => (
                Of(g.Patient, f.Patient) + g.Name,
                f.Patient.Value + f.Details?.Name
            ),
            (OpenExamEntry g, ExamOpened f) => (
                g.Instrument + Of(g.Patient, f.Patient),
                f.Serial.Value + f.Patient?.Value
            ),
            (AttachEntry g, ExamAttached f) => (Of(g.Patient, f.Patient), f.Patient.Value),
            (MoveEntry g, ExamMoved f) => (Of(g.Patient, f.Patient), f.Patient.Value),
            (MergeEntry g, PatientsMerged f) => (
                g.Kept + g.Merged + g.Reason,
                f.Kept.Value + f.Merged.Value + f.Reason
            ),
            (ErasePatientEntry g, PatientErased f) => (g.OrderedBy + g.Reason, f.OrderedBy + f.Reason),
            (SplitEntry g, ExamSplit f) => ($"{g.From}", $"{f.From}"),
            (WithdrawEntry g, EntryWithdrawn f) => (g.Withdrawn, f.Withdrawn.ToString()),
            (SignEntry g, ExamSigned f) => (world.People.SeenBy(g.EntryId), f.Record),
            (MakeReadyEntry, ExamMadeReady) or (SetAsideEntry, ExamSetAside) or (AmendEntry, AmendmentBegun) => (
                "",
                ""
            ),
            (RoomLightEntry, RoomLightEntered) => ("", ""),
            _ => (given.GetType().Name, found.GetType().Name),
        };
        return said == is_ ? null : $"it says '{is_}', and was '{said}'";
    }

    /// <summary>The number that is to be recorded for one that was said: whoever has two goes on under one of them.</summary>
    private string? Of(string? said, PatientId? recorded) =>
        said is not null && world.Orders.Merged.TryGetValue(said, out var kept) && recorded?.Value == kept
            ? kept
            : said;
}
