using PupilBridge.Clinic.House;
using PupilBridge.Clinic.Views;
using PupilBridge.ExamLog;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Assembly.Lanes;
using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;
using PupilBridge.Worker.Live;

namespace PupilBridge.Clinic.Lanes;

/// <summary>
/// Follows one lane and makes its board when asked. Live positions come many times a second and change nothing about the exam: its part
/// is made only when the exam changed, and is the same object otherwise. Not safe for several threads.
/// </summary>
internal sealed class LaneFollower(IClinicHouse house, SerialNumber serial, LaneSettings settings)
{
    private readonly LanePatients patients = new(house);
    private readonly CarriedIn carried = new();
    private readonly LaneVisits visits = new(house);
    private LiveInstrument? live;
    private PortStatus? port;
    private Exam? ended;
    private (Exam Exam, PatientView? Patient, LaneExam Shown)? shownExam;
    private IReadOnlyList<LaneReminder> reminders = [];
    private (Exam? Ended, LaneExamBefore? Shown)? shownBefore;

    /// <summary>Begins anew from the present state.</summary>
    public void Begin(LiveSnapshot snapshot)
    {
        live = snapshot.Instruments.FirstOrDefault(instrument => instrument.Serial == serial);
        port = snapshot.Ports.FirstOrDefault(p => p.Serial == serial);
        ended = null;
        patients.Clear();
    }

    /// <summary>Takes a change.</summary>
    /// <returns>Whether the lane may look different.</returns>
    public bool Take(LiveChange change)
    {
        switch (change)
        {
            case LiveChange.InstrumentChanged { Instrument: var instrument } when instrument.Serial == serial:
                live = instrument;
                return true;
            case LiveChange.PortChanged { Port: var changed } when changed.Serial == serial:
                port = changed;
                return true;
            case LiveChange.ExamChanged { Exam: var exam } when exam.Serial == serial:
                ended = exam.Id == ended?.Id ? null : ended;
                return true;
            case LiveChange.EntryRecorded { Entry.Entry: PatientEntered entered }:
                patients.Entered(entered);
                return true;
            case LiveChange.EntryRecorded { Entry.Entry: PatientsMerged or PatientsParted }:
                patients.Clear();
                visits.Clear();
                (shownExam, shownBefore) = (null, null);
                return true;
            case LiveChange.EntryRecorded { Entry.Entry: var entry }:
                return SerialOf(entry) == serial;
            default:
                return change is LiveChange.TroubleChanged;
        }
    }

    /// <summary>The board as it is now.</summary>
    /// <returns>Null if nobody knows the instrument.</returns>
    public LaneBoard? Board(DateTimeOffset now)
    {
        var book = house.Book;
        var lane = book.Lane(serial);
        if (live is null && lane is null)
        {
            return null;
        }

        var exam = carried.Of(book, serial);
        var sight = new LaneSight
        {
            Serial = serial,
            Live = live,
            Port = port,
            Book = book,
            Exam = exam,
            Ended = EndedLast(lane),
            Patient = exam?.Patient is { } patient ? patients.Find(patient) : null,
            Trouble = house.Trouble ?? house.ExamsWaitFor,
        };
        reminders = LaneReminding.Of(lane, exam, now, settings, reminders);
        return LaneBoards.Of(sight, Shown(exam, sight.Patient), ShownBefore(sight.Ended), reminders, now);
    }

    /// <summary>The instrument of an entry that may change what is known of it without changing an exam.</summary>
    private static SerialNumber? SerialOf(JournalEntry entry) =>
        entry switch
        {
            InstrumentReported reported => reported.Serial,
            InstrumentMet met => met.Serial,
            EventsLost lost => lost.Serial,
            LineChanged line => line.Serial,
            _ => null,
        };

    private LaneExam? Shown(Exam? exam, PatientView? patient)
    {
        if (exam is null)
        {
            return null;
        }

        if (shownExam is not { } before || !ReferenceEquals(before.Exam, exam) || before.Patient != patient)
        {
            shownExam = (exam, patient, LaneExams.Of(exam, patient, visits.BeforeDrops(exam), settings));
        }

        return shownExam.Value.Shown;
    }

    private LaneExamBefore? ShownBefore(Exam? exam)
    {
        if (shownBefore is not { } before || !ReferenceEquals(before.Ended, exam))
        {
            shownBefore = (exam, LaneBefores.Of(exam, visits.BeforeDrops));
        }

        return shownBefore.Value.Shown;
    }

    private Exam? EndedLast(LaneState? lane)
    {
        if (lane?.Recent.LastOrDefault(window => window.Exam != lane.OpenExam)?.Exam is not { } id)
        {
            return null;
        }

        if (ended?.Id != id)
        {
            ended = Find(id);
        }

        return ended;
    }

    private Exam? Find(ExamId id)
    {
        try
        {
            return house.FindExam(id);
        }
        catch (ExamLogBrokenException)
        {
            // It is an older one, and the exam log is being made anew: there will be a next look.
            return null;
        }
    }
}
