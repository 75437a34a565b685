using PupilBridge.Constructed.Scripts;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Bench;
using PupilBridge.Exams.Calibration.Decisions;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Tests.Bench;

/// <summary>How a calibration stands at a moment.</summary>
public sealed class CalibrationStandingTests
{
    private static readonly IssuedCalibration Issued = Script
        .Run("meet A; bench calibration all 2; finish; issue 1 until=1000")
        .Book.Lane(new("Q7"))!
        .Calibrations[0];

    [Fact]
    public void Without_one_it_is_missing() =>
        Assert.Equal(CalibrationStanding.Missing, CalibrationStandings.Of(null, Issued.Effective));

    [Theory]
    [InlineData(-1, CalibrationStanding.Holds)]
    [InlineData(0, CalibrationStanding.Expired)]
    [InlineData(1, CalibrationStanding.Expired)]
    public void It_expires_at_its_moment(long milliseconds, object standing) =>
        Assert.Equal(
            (CalibrationStanding)standing,
            CalibrationStandings.Of(Issued, Issued.Expires!.Value.PlusMilliseconds(milliseconds))
        );

    [Fact]
    public void One_that_does_not_expire_holds_for_good() =>
        Assert.Equal(
            CalibrationStanding.Holds,
            CalibrationStandings.Of(
                Issued with
                {
                    Expires = null,
                },
                Issued.Effective.PlusMilliseconds(long.MaxValue / 4)
            )
        );

    [Theory]
    [InlineData(ConformityStatement.Pass, CalibrationStanding.Holds)]
    [InlineData(ConformityStatement.ConditionalPass, CalibrationStanding.Holds)]
    [InlineData(ConformityStatement.ConditionalFail, CalibrationStanding.Failed)]
    [InlineData(ConformityStatement.Fail, CalibrationStanding.Failed)]
    public void Either_scale_beyond_the_limit_is_told_before_that_it_expired(object statement, object standing)
    {
        foreach (var eye in EyeFacts.Both)
        {
            var scales = Issued.Scales.With(
                eye,
                Issued.Scales[eye] with
                {
                    Statement = (ConformityStatement)statement,
                }
            );
            var one = Issued with { Scales = scales };
            Assert.Equal((CalibrationStanding)standing, CalibrationStandings.Of(one, one.Effective));
            var after = CalibrationStandings.Of(one, one.Expires!.Value);
            Assert.Equal(
                (CalibrationStanding)standing == CalibrationStanding.Failed
                    ? CalibrationStanding.Failed
                    : CalibrationStanding.Expired,
                after
            );
        }
    }

    [Fact]
    public void That_of_an_exam_is_how_it_stood_when_the_exam_opened()
    {
        const string issued = "meet A; bench calibration all 2; finish; issue 1 until=1000;";
        Assert.Equal(CalibrationStanding.Holds, Standing(issued + "open Q-1001; +5000; note n"));
        Assert.Equal(CalibrationStanding.Expired, Standing(issued + "+5000; open Q-1001"));
        Assert.Equal(CalibrationStanding.Missing, Standing("open Q-1001;" + issued));
    }

    private static CalibrationStanding Standing(string script) => CalibrationStandings.Of(Script.Run(script).Exam);
}
