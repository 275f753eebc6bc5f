return Leafstop.Raw.Decoding.DecodingWorker.RunAsProcess();
