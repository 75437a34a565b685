using PupilBridge.Clinic.House;
using PupilBridge.Clinic.Showing;
using PupilBridge.Clinic.Views;
using PupilBridge.ExamLog;
using PupilBridge.Exams.Entries;

namespace PupilBridge.Clinic.Lanes;

/// <summary>
/// The patient that a lane shows. The exam log may not hold yet what was entered a moment ago, so that what is seen to be recorded is
/// remembered here.
/// </summary>
internal sealed class LanePatients(IClinicHouse house)
{
    private readonly Dictionary<PatientId, PatientView> entered = [];
    private (PatientId Id, PatientView View)? found;

    /// <summary>A patient's details were recorded.</summary>
    public void Entered(PatientEntered entry) => entered[entry.Patient] = PatientViews.Of(house, entry);

    /// <summary>Forgets what was remembered: changes may have been missed, and the log has caught up with older ones.</summary>
    public void Clear()
    {
        entered.Clear();
        found = null;
    }

    /// <summary>A patient as far as known; always one, since the number alone is enough to catch a wrong one.</summary>
    public PatientView Find(PatientId id)
    {
        if (entered.TryGetValue(id, out var recorded))
        {
            return recorded;
        }

        if (found is { } before && before.Id == id)
        {
            return before.View;
        }

        var view = Read(id);
        found = (id, view);
        return view;
    }

    private PatientView Read(PatientId id)
    {
        try
        {
            return PatientViews.Of(house, id);
        }
        catch (ExamLogBrokenException)
        {
            // The exam log is being made anew; the number is known without it.
            return new PatientView(id.Value, null, null);
        }
    }
}
