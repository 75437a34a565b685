using PupilBridge.Clinic.Outgoing;
using PupilBridge.Clinic.Views;

namespace PupilBridge.Clinic;

/// <summary>What may leave the house, for whoever writes it: reports, tables, messages. Plain data, so that it crosses the local socket.</summary>
public interface IOutgoingDesk : IOutgoingPages
{
    /// <summary>One exam as it may leave the house: the record with whom it is about and who signed it.</summary>
    /// <param name="exam">Its number.</param>
    /// <param name="version">Which signed version; null for the latest signed one, or the draft while none is signed.</param>
    /// <param name="cancellationToken">Gives up waiting.</param>
    /// <returns>Null if there is no such exam, or no such version of it.</returns>
    Task<OutgoingRecord?> ShowOutgoingAsync(long exam, int? version, CancellationToken cancellationToken);

    /// <summary>One patient; null if the number is not known.</summary>
    /// <param name="patient">The clinic's number.</param>
    /// <param name="cancellationToken">Gives up waiting.</param>
    Task<PatientView?> ShowPatientAsync(string patient, CancellationToken cancellationToken);

    /// <summary>A patient's visits, the latest first, with their sizes.</summary>
    /// <param name="patient">The clinic's number.</param>
    /// <param name="limit">The most visits, 1 to 500.</param>
    /// <param name="cancellationToken">Gives up waiting.</param>
    Task<PatientHistory> HistoryAsync(string patient, int limit, CancellationToken cancellationToken);
}
