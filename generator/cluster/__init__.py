"""Jobs built by the workers of a Dask cluster, which need nothing but onlot itself."""
