using PupilBridge.Instrument;

namespace PupilBridge.Simulator.Devices;

/// <summary>The lamp's on and off of one block, timed by the instrument's own tick.</summary>
/// <param name="block">The block.</param>
/// <param name="train">Its numbers.</param>
/// <param name="firstOn">The tick of the first stimulus.</param>
/// <param name="isEndless">Whether it begins again when it is through.</param>
internal sealed class LampTrain(Block block, StimulusTrain train, Tick firstOn, bool isEndless)
{
    private int stimulus;
    private Tick due = firstOn;
    private Tick onAt;
    private bool isOn;

    /// <summary>How many stimuli the train has in all.</summary>
    public int Count => 2 * train.StimuliPerEye;

    /// <summary>Whether it has run through at least once.</summary>
    public bool ReachedCount => stimulus >= Count;

    /// <summary>Whether nothing comes any more (its last gap included).</summary>
    public bool IsOver { get; private set; }

    /// <summary>The eye lit now, or null.</summary>
    public Eye? Lit => isOn ? EyeOf(stimulus) : null;

    /// <summary>The tick at which the burning lamp went on, or null.</summary>
    public Tick? LitSince => isOn ? onAt : null;

    /// <summary>The tick at which something happens next; null when it is over.</summary>
    public Tick? NextDue => IsOver ? null : due;

    /// <summary>Does what is due.</summary>
    public void Advance(Tick now, int percent, IBodyListener listener)
    {
        while (!IsOver && due <= now)
        {
            if (isOn)
            {
                SwitchOff(now, listener);
            }
            else if (stimulus >= Count && !isEndless)
            {
                IsOver = true;
            }
            else
            {
                isOn = true;
                onAt = now;
                due = new(now.Milliseconds + (long)train.Dwell.TotalMilliseconds);
                listener.Happened(InstrumentEvent.LampSwitched(now, EyeOf(stimulus), on: true, percent));
            }
        }
    }

    /// <summary>Ends it at once; a burning lamp goes off.</summary>
    public void Stop(Tick now, IBodyListener listener)
    {
        if (isOn)
        {
            SwitchOff(now, listener);
        }

        IsOver = true;
    }

    private void SwitchOff(Tick now, IBodyListener listener)
    {
        isOn = false;
        due = new(now.Milliseconds + (long)train.Gap.TotalMilliseconds);
        listener.Happened(InstrumentEvent.LampSwitched(now, EyeOf(stimulus), on: false, levelPercent: 0));
        stimulus++;
    }

    // Direct: all of the right eye, then all of the left. Swinging: right, left, right, left.
    private Eye EyeOf(int index)
    {
        var inPass = index % Count;
        var isRight = block == Block.Direct ? inPass < train.StimuliPerEye : inPass % 2 == 0;
        return isRight ? Eye.Right : Eye.Left;
    }
}
