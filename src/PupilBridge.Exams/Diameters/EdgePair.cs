using PupilBridge.Instrument;

namespace PupilBridge.Exams.Diameters;

/// <summary>The nasal and the temporal position of one pupil on its scale.</summary>
/// <param name="Nasal">The position at the edge on the side of the nose.</param>
/// <param name="Temporal">The position at the edge on the side of the temple.</param>
/// <param name="Direction">Where the scale's positions grow towards.</param>
public readonly record struct EdgePair(Micrometres Nasal, Micrometres Temporal, ScaleDirection Direction)
{
    /// <summary>
    /// The difference of the two readings in the direction from nose to temple: a diameter as read. It is positive if the
    /// edges are what they are said to be. Common practice, no source.
    /// </summary>
    /// <exception cref="InvalidOperationException">The direction is not said.</exception>
    public Micrometres Difference =>
        Direction switch
        {
            ScaleDirection.Temporal => Temporal - Nasal,
            ScaleDirection.Nasal => Nasal - Temporal,
            _ => throw new InvalidOperationException("The scale's direction is not known."),
        };
}
