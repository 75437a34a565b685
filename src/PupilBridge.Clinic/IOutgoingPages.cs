using PupilBridge.Clinic.Outgoing;

namespace PupilBridge.Clinic;

/// <summary>Exams one after the other as they may leave the house, for tables. Plain data, so that it crosses the local socket.</summary>
public interface IOutgoingPages
{
    /// <summary>One page of exams, the latest opened first, each with its latest version: signed, or the draft while none is signed.</summary>
    /// <param name="search">Which ones.</param>
    /// <param name="cancellationToken">Gives up waiting.</param>
    Task<OutgoingPage> ListOutgoingAsync(OutgoingSearch search, CancellationToken cancellationToken);
}
