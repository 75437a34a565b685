using PupilBridge.Instrument;

namespace PupilBridge.Simulator.Devices;

/// <content>What hands do to it, and what eyes see of it.</content>
public sealed partial class SimulatedInstrument
{
    /// <summary>What the dial asks at present.</summary>
    public InstrumentMode Mode => body.Mode;

    /// <summary>The block that runs, or none.</summary>
    public Block Block => body.Block;

    /// <summary>The eye that a lamp lights now, or null.</summary>
    public Eye? Lit => Power == PowerState.On ? body.Lit : null;

    /// <summary>Output of a burning lamp, in percent.</summary>
    public int LampPercent => body.LampPercent;

    /// <summary>Whether the block that runs has reached its count.</summary>
    public bool ReachedCount => body.ReachedCount;

    /// <summary>Whether the sequence is through.</summary>
    public bool IsSequenceThrough => body.IsThrough;

    /// <summary>Whether the dial is on its way to a stop.</summary>
    public bool IsDialTurning => body.IsTurning;

    /// <summary>Illuminance of the room, in lux.</summary>
    public double RoomLux => body.RoomLux;

    /// <summary>Whether a near target is fixated.</summary>
    public bool NearTarget => body.NearTarget;

    /// <summary>Where a scale stands.</summary>
    /// <param name="eye">The eye whose scale it is.</param>
    /// <returns>The position.</returns>
    public Micrometres ScalePosition(Eye eye) => body.Scale(eye).Position;

    /// <summary>Whether a scale moves.</summary>
    /// <param name="eye">The eye whose scale it is.</param>
    /// <returns>True while it moves.</returns>
    public bool IsScaleMoving(Eye eye) => body.Scale(eye).IsMoving;

    /// <summary>For how long the body does nothing of itself: no lamp, no scale, no dial. Heartbeats go on meanwhile.</summary>
    /// <param name="most">How much is asked for.</param>
    /// <returns>At most that; zero while something moves.</returns>
    public TimeSpan QuietFor(TimeSpan most) => Power == PowerState.On ? body.QuietFor(most) : most;

    /// <summary>Turns the dial to a stop, past those between.</summary>
    /// <param name="stop">One of the model's stops.</param>
    public void TurnDialTo(DialStop stop) => body.TurnDialTo(stop);

    /// <summary>Begins to slide a scale.</summary>
    /// <param name="eye">The eye whose scale it is.</param>
    /// <param name="micrometres">Where to; held within the scale's ends.</param>
    /// <param name="micrometresPerSecond">How fast, above 0.</param>
    public void SlideTo(Eye eye, double micrometres, double micrometresPerSecond)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(micrometresPerSecond);
        body.Scale(eye).SlideTo(micrometres, micrometresPerSecond);
    }

    /// <summary>Presses a mark key; an instrument without mark keys does nothing.</summary>
    /// <param name="eye">The eye whose edge it is.</param>
    /// <param name="edge">Which edge.</param>
    public void PressMark(Eye eye, PupilEdge edge) => body.PressMark(eye, edge);

    /// <summary>Changes the light in the room.</summary>
    /// <param name="lux">Illuminance in lux, 0 or more.</param>
    public void SetRoom(double lux)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(lux);
        body.SetRoom(lux);
    }

    /// <summary>Asks the person to look far or near.</summary>
    /// <param name="near">Whether near.</param>
    public void Fixate(bool near) => body.Fixate(near);

    /// <summary>Swings the viewing lens.</summary>
    /// <param name="isIn">Whether in.</param>
    public void MoveLens(bool isIn) => body.MoveLens(isIn);
}
