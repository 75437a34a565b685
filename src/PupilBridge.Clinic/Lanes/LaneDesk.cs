using PupilBridge.Clinic.Desk;
using PupilBridge.Clinic.Entries;
using PupilBridge.Clinic.House;
using PupilBridge.Clinic.Views;
using PupilBridge.Instrument;

namespace PupilBridge.Clinic.Lanes;

/// <summary>The lanes of a house.</summary>
/// <param name="house">The house.</param>
/// <param name="desk">Where entries go.</param>
/// <param name="time">The clock by which running times are reckoned.</param>
/// <param name="settings">What to be reminded of; null for everything.</param>
public sealed class LaneDesk(IClinicHouse house, IClinicDesk desk, TimeProvider time, LaneSettings? settings = null)
    : ILaneDesk
{
    private readonly LaneSettings settings = settings ?? LaneSettings.Default;

    /// <inheritdoc/>
    public Task<LaneBoard?> LookAtLaneAsync(string instrument, CancellationToken cancellationToken) =>
        Task.Run(
            () =>
            {
                if (!SerialNumber.IsValid(instrument))
                {
                    return null;
                }

                var follower = new LaneFollower(house, new SerialNumber(instrument), settings);
                follower.Begin(house.Look());
                return follower.Board(time.GetUtcNow());
            },
            cancellationToken
        );

    /// <inheritdoc/>
    /// <exception cref="EntryProblemException">The text can be no serial number.</exception>
    public IAsyncEnumerable<LaneBoard> WatchLaneAsync(string instrument, CancellationToken cancellationToken) =>
        new LaneFeed(house, Given.Serial(instrument), time, settings).RunAsync(cancellationToken);

    /// <inheritdoc/>
    public Task<EntryOutcome> EnterAsync(DeskEntry entry, CancellationToken cancellationToken) =>
        desk.EnterAsync(entry, cancellationToken);

    /// <inheritdoc/>
    public Task<SwitchOffOutcome> SwitchOffAsync(string instrument, string who, CancellationToken cancellationToken) =>
        SwitchingOff.AskAsync(house, Given.Serial(instrument), Given.Person(who), cancellationToken);
}
