using PupilBridge.Clinic.Entries;
using PupilBridge.Clinic.Views;

namespace PupilBridge.Clinic;

/// <summary>What a lane's screen needs: everything about one instrument and its exam, as it changes.</summary>
public interface ILaneDesk
{
    /// <summary>The lane of one instrument, as it is now.</summary>
    /// <param name="instrument">The instrument's serial number.</param>
    /// <param name="cancellationToken">Gives up waiting.</param>
    /// <returns>Null if nobody knows the instrument.</returns>
    Task<LaneBoard?> LookAtLaneAsync(string instrument, CancellationToken cancellationToken);

    /// <summary>
    /// The lane of one instrument: first as it is, then again whenever something about it changed. One who cannot keep up sees fewer
    /// steps, never an older state after a newer one. An instrument that is not known yet is waited for.
    /// </summary>
    /// <param name="instrument">The instrument's serial number.</param>
    /// <param name="cancellationToken">Ends it.</param>
    IAsyncEnumerable<LaneBoard> WatchLaneAsync(string instrument, CancellationToken cancellationToken);

    /// <summary>Records what a person entered at the lane; see <see cref="IClinicDesk.EnterAsync"/>.</summary>
    /// <param name="entry">The entry with the id made where it was typed.</param>
    /// <param name="cancellationToken">Gives up waiting; the entry may be recorded all the same, and can be sent again.</param>
    Task<EntryOutcome> EnterAsync(DeskEntry entry, CancellationToken cancellationToken);

    /// <summary>Asks an instrument to switch itself off. Wish and outcome are journalled.</summary>
    /// <param name="instrument">The instrument's serial number.</param>
    /// <param name="who">Who wishes it.</param>
    /// <param name="cancellationToken">Gives up waiting.</param>
    Task<SwitchOffOutcome> SwitchOffAsync(string instrument, string who, CancellationToken cancellationToken);
}

/// <summary>Whether an instrument switched itself off.</summary>
/// <param name="Done">Whether it said so.</param>
/// <param name="Words">What happened, and what to do next, for a person.</param>
public sealed record SwitchOffOutcome(bool Done, string Words);
