using PupilBridge.Clinic.Bench;
using PupilBridge.Clinic.Entries;
using PupilBridge.Clinic.Erasing;
using PupilBridge.Clinic.House;
using PupilBridge.Clinic.Merging;
using PupilBridge.Clinic.Text;
using PupilBridge.ExamLog;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;

namespace PupilBridge.Clinic.Desk;

/// <summary>
/// Takes what people enter: understands it, asks the domain whether it would count, has it recorded, and looks whether it did.
/// </summary>
internal sealed class EntryDesk(IClinicHouse house)
{
    /// <summary>Takes one entry.</summary>
    public async Task<EntryOutcome> EnterAsync(DeskEntry given, CancellationToken cancellation)
    {
        try
        {
            var entry = EntryTranslation.Read(given);
            var isNew = !house.IsKnown(entry.Id);
            if (isNew && house.ExamsWaitFor is { } wait)
            {
                return new EntryOutcome.Refused(wait, ClinicText.Desk["Next.InAMoment"]);
            }

            if (isNew && entry is PatientErased)
            {
                // An exam that ended a moment ago may not be listed yet, and would be passed over for good.
                await house.WrittenAsync(cancellation).ConfigureAwait(false);
            }

            var notice = isNew ? GoneNumbers.Follow(house, ref entry) : null;
            if (isNew && Obstacle(given, ref entry) is { } obstacle)
            {
                return new EntryOutcome.Refused(obstacle.Reason, obstacle.NextStep);
            }

            notice = isNew ? Notices.Join(notice, Notices.Before(house, entry)) : null;
            var receipt = await house.RecordAsync(entry, cancellation).ConfigureAwait(false);
            var exam = ExamOf(entry, receipt.Sequence);
            if (entry is ExamSigned signed)
            {
                await house.AppliedAsync(receipt.Sequence, cancellation).ConfigureAwait(false);
                if (Signing.NotCounted(house, signed) is { } refused)
                {
                    return refused;
                }
            }

            if (entry is PatientErased erased)
            {
                await house.AppliedAsync(receipt.Sequence, cancellation).ConfigureAwait(false);
                await house.RenewedAsync(cancellation).ConfigureAwait(false);
                notice = receipt.IsRepeat ? null : ErasureNotices.Of(house, erased);
            }

            return receipt.IsRepeat
                ? new EntryOutcome.AlreadyRecorded(receipt.Sequence.Value, exam?.Value)
                : new EntryOutcome.Recorded(receipt.Sequence.Value, exam?.Value)
                {
                    Notice =
                        await NotCountedAsync(entry, receipt.Sequence, exam, cancellation).ConfigureAwait(false)
                        ?? notice,
                };
        }
        catch (EntryProblemException problem)
        {
            return new EntryOutcome.Refused(problem.Message, ClinicText.Desk["Next.PutRight"]);
        }
        catch (ExamLogBrokenException broken)
        {
            return new EntryOutcome.Refused(broken.Message, ClinicText.Desk["Next.InAMoment"]);
        }
        catch (Exception full)
            when (full is Worker.Keeping.SourceFullException or Journal.JournalStoppedException or IOException)
        {
            return new EntryOutcome.Refused(full.Message, ClinicText.Desk["Next.OncePutRight"]);
        }
    }

    /// <summary>What is in the way of an entry, after what only the house knows was put into it.</summary>
    private EntryObstacle? Obstacle(DeskEntry given, ref PersonEntry entry)
    {
        EntryObstacle? obstacle = null;
        if (entry is ExamOpened opened && house.Book.Lane(opened.Serial) is null)
        {
            obstacle = UnknownInstrument(opened.Serial);
        }
        else if (given is PatientEntry patient && entry is PatientEntered entered)
        {
            obstacle = PatientEntering.Obstacle(house, patient, entered);
            entry = PatientEntering.Whole(house, patient, entered);
        }
        else if (entry is PatientsMerged merged)
        {
            obstacle = MergingObstacles.Of(house, ref merged);
            entry = merged;
        }
        else if (given is PartEntry part && entry is PatientsParted parted)
        {
            obstacle = MergingObstacles.Of(house, part, ref parted);
            entry = parted;
        }
        else if (given is ErasePatientEntry erase && entry is PatientErased erased)
        {
            obstacle = ErasureObstacles.Of(house, erase, ref erased);
            entry = erased;
        }
        else if (given is SignEntry signature && entry is ExamSigned signed)
        {
            entry = Signing.Compose(house, signature, signed, out obstacle);
        }
        else
        {
            obstacle = BenchObstacles.Of(house, given, ref entry);
        }

        return obstacle ?? Rehearsal.Of(house.Book, house.FindSitting, entry);
    }

    /// <summary>
    /// Events may have come between asking and recording. What counts is what the journal says, so it is looked at once more.
    /// </summary>
    private async Task<string?> NotCountedAsync(
        PersonEntry entry,
        JournalSequence sequence,
        ExamId? id,
        CancellationToken cancellation
    )
    {
        await house.AppliedAsync(sequence, cancellation).ConfigureAwait(false);
        if (id is not { } name || house.FindSitting(name) is not Exam exam)
        {
            return null;
        }

        return Rehearsal.In(exam, entry, sequence) is { } obstacle
            ? $"{obstacle.Reason} {obstacle.NextStep}"
            : Contradicting.Of(exam, entry);
    }

    private EntryObstacle UnknownInstrument(SerialNumber serial)
    {
        var known = string.Join(", ", house.Book.Lanes.Keys);
        return new EntryObstacle(
            ClinicText.Desk.Get("Instrument.NeverMet", serial),
            known.Length == 0
                ? ClinicText.Desk["Instrument.Connect"]
                : ClinicText.Desk.Get("Instrument.ConnectOrKnown", known)
        );
    }

    private static ExamId? ExamOf(PersonEntry entry, JournalSequence sequence) =>
        entry switch
        {
            ExamOpened or ExamSplit or BenchRunBegun => ExamId.OpenedBy(sequence),
            ExamEntry about => about.Exam,
            _ => null,
        };
}
