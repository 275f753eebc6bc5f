using Leafstop.Cli;
using Leafstop.Cli.CommandLine;
using Leafstop.Cli.Verbs;

// A decoding worker is this program once more, started by another one. It loads nothing but what it needs.
if (args is ["decode-worker"])
    return DecodeWorker.Run();

return VerbLine.Run(args, say =>
[
    MeasureVerb.Build(say),
    SampleVerb.Build(say),
    CamerasVerb.Build(say),
    PlanVerb.Build(say),
    DepthVerb.Build(say),
    LightVerb.Build(say),
    PlacesVerb.Build(say),
    PocketVerb.Build(say),
    StripVerb.Build(say),
    CardVerb.Build(say),
    JudgeVerb.Build(say),
    ServeVerb.Build(say),
    DemoVerb.Build(say),
]);
